export { materialsOf, partiesOf } from './catalogue/catalogue-views.js';
export {
  type CounterAnswer,
  type CounterOpening,
  type CounterProduct,
  type ProductAnswers,
  counterAnswers,
} from './counter/counter-answers.js';
export { counterPart } from './counter/counter-view.js';
export { usedLots } from './counter/used-lots.js';
export { formulaListOf } from './formulas/formula-list.js';
export { formulaViewOf, shownAllergens } from './formulas/formula-view.js';
export { type Reference, allergenSourcesOf, approvalState } from './formulas/reference.js';
export { wantedOf } from './formulas/wanted.js';
export { waterViewOf } from './formulas/water-view.js';
export { changesOf, idsIn } from './inspection/corrections.js';
export type { LeftOfLot } from './inspection/checks.js';
export { countsAs } from './inspection/counts-as.js';
export { inspectionOf } from './inspection/inspection-view.js';
export { type RecordBehind, takenBackOf } from './inspection/taken-back.js';
export { takenBackText } from './lookup/taken-back-text.js';
export { deviationsOf } from './inspection/wrong.js';
export { PeriodRecords, idsToName } from './inspection/period-records.js';
export { type BegunBefore, type DeviationRows, type Period } from './inspection/rows.js';
export { doubtOn, doubtText } from './lookup/doubt.js';
export {
  type LeftRange,
  type Warned,
  type Lookup,
  type LotCode,
  codeOf,
  leavingOn,
  leftInLot,
  leftRangeIn,
  lookupOf,
  nameOf,
  saidOf,
  takenBeyond,
  tooLittleFor,
  troubleOn,
} from './lookup/lookup.js';
export { type AdditionAsked, additionsAsked, notPutOn } from './night/additions.js';
export { type BatchView, batchView, batchesOf } from './night/batches.js';
export { type DeviationView, deviationView, openDeviations } from './night/deviations.js';
export { type HeldFood, heldFood, heldOf } from './night/held-food.js';
export { type DueView, dueReadings } from './night/due.js';
export { type Unfinished, unfinishedOf } from './night/unfinished.js';
export { type InUseView, inUseView } from './night/in-use.js';
export { instrumentsFor, proposedInstrument } from './night/instruments.js';
export { type LoadView, loadView, loadsOf } from './night/loads.js';
export { type LineView, type MakeView, type RunView, makeView, makesOf } from './night/makes.js';
export { type NightView, nightView } from './night/night-view.js';
export { type DestroyedOf, type LotOnHand, type ProductOnHand, decidedDestroyed, onHandOf } from './night/on-hand.js';
export { type ReadingView, readingsOf } from './night/readings.js';
export { type StageView, stagesOf } from './night/stages.js';
export { type TimerView, timersOf } from './night/timers.js';
export { type Mouth, type OvenFront, type OvenPlace, type Whereabouts, whereaboutsOf } from './night/whereabouts.js';
export { signedWithText } from './plans/plan-warnings.js';
export { loosenedText, looseningBasisText, validationText } from './plans/loosened-text.js';
export { planOverviewOf, planViewOf } from './plans/plan-views.js';
export { type ContactDeparture, type ContactListEntry, type ContactMade, contactList } from './recall/contact-list.js';
export { closedOverTexts } from './recall/closed-over.js';
export { beginsAnew, stillReached } from './recall/still-reached.js';
export { type DraftInHand, type SetupFacts } from './setup/facts.js';
export { mayDo, setupOf } from './setup/setup-view.js';
export { type Grid, type Wrong, letterOf, maxRows } from './sheet/table.js';
export { type MaterialSheet, type Offered, materialColumns, materialId, materialSheet } from './sheet/material-sheet.js';
export { type PartySheet, partyColumns, partySheet } from './sheet/party-sheet.js';
export { batchStandingsOf, needsOfBatchStandings } from './standing/batch-standing.js';
export { placesOnHold } from './standing/held-places.js';
export { keptFrom } from './standing/kept-from.js';
export { isLate, lateIn, lateNeeds } from './night/late.js';
export { type FoundSince, foundSinceRelease } from './night/found-since.js';
export { moreThanWent, stillThereText, toReachText } from './recall/to-reach.js';
export { type ToClear, toClear } from './recall/to-clear.js';
export { type WentUnnamed, wentUnnamed, wentUnnamedText } from './recall/went-unnamed.js';
export { comesOff } from './recall/comes-off.js';
export { type ComesOff, shelvesText } from './standing/shelves-text.js';
export { type Standing, concernView, isOnHold, needsOfStandings, standingsOf, standingView } from './standing/standing.js';
export { type DepartureOfLot, departuresOnce } from './recall/departures-once.js';
export { type OldOnHand, toAskAbout } from './night/to-ask-about.js';
export { containsByFormula } from './stock/by-formula.js';
export { type LotInStock, inStock } from './stock/in-stock.js';
export { type OrderLine, type OrderOfDay, type Orders, ordersOf } from './stock/orders.js';
export { type MayBeHere, pastUseByHere, pastUseByNeeds } from './stock/past-use-by.js';
export { type ProductThere, type Share, type WentOnce, sharesOf, wentThere } from './stock/went-there.js';
export { type TraceQuestion } from './trace/rows.js';
export { partsOf } from './trace/divided-into.js';
export { type FrozenScope, type Reached, type Traced, frozenScopeOf, tracedOf } from './trace/trace-view.js';
export { type ReadInSeries, type TrendMaterial, trendOf } from './trends/trend-view.js';
export { initials, stampDrawing } from './stamp.js';
