export * from './kernel/problems.js';
export * from './sums/calculation.js';
export * from './sums/calculations.js';
export * from './sums/statistics/index.js';
export * from './sums/quantity/index.js';
export * from './sums/food-safety/index.js';
export { collections, type Lookups, type Rows } from './collections.js';
export { allergen, allergenCalled, allergenMappingNotes, annexTwo, usNine, type Allergen, type AllergenEntry } from './kernel/allergens.js';
export { derivedId } from './kernel/derived-id.js';
export { envelope, word, type Entry, type Envelope, type Input, type Signature, type Stamp } from './kernel/entry.js';
export { type AnyKind, type Context, type Decided, type Previous, type ReadEntry } from './kernel/kind.js';
export { permission, permissionsOf, role, type Permission, type Role } from './kernel/permissions.js';
export { type Change, type CollectionName, type Need, type Row, type State } from './kernel/state.js';
export { distinctNeeds, keyOf, WorkingSet, type Dirty, type Origin, type Written } from './kernel/working-set.js';
export { kindOf, kinds } from './kinds.js';
export { contactList, type ContactMade, type ContactDeparture, type ContactListEntry } from './recalls/contact-list.js';
export { balanceOf, type Balance, type BalanceInput, type Movement } from './trace/balance.js';
export { amountHeld, traceForward, whole, type Reached } from './trace/forward.js';
export { byEnd, intakesOf, type TraceFlow, type TraceGraph, type TraceLot } from './trace/graph.js';
export { heatNote, scopeOf, type Hazard, type Scope } from './trace/scope.js';
export * from './kernel/units.js';
export { judge, type GuardedVerdict } from './kernel/judge.js';
export { caution } from './kernel/caution.js';
export { grouped } from './kernel/grouped.js';
export { accountOf, type LotAccountRows } from './trace/account.js';
export { dayBounds, siteDay } from './kernel/day-bounds.js';
export { day as calendarDay } from './kernel/fields.js';
export { dayOfYear, daysAfter, localDay, secondsBetween } from './kernel/local-day.js';
export * from './sums/bakery/index.js';
export {
  formulaAllergens,
  productAllergens,
  type AllergenAnswer,
  type AllergenSources,
  type Declared,
} from './formulas/formula-allergens.js';
export { formulaPercents, scaledTo, scaledToPieces, type Scaled, type ScaledLine, type Wanted } from './formulas/formula-amounts.js';
export { accessesInForce, letsSee } from './inspection/access-in-force.js';
export { differences, type Difference } from './kernel/differences.js';
export { merge, overlapping, type Clash, type Merged } from './kernel/merge.js';
export {
  blankFormula,
  blankPlan,
  draftLines,
  formulaDraft,
  planDraft,
  type DraftLine,
  type FormulaDraft,
  type PlanDraft,
} from './drafts/draft-content.js';
export { formulaDraftProblems, planDraftProblems, type DraftProblem } from './drafts/draft-problems.js';
export { formulaContent, formulaType, processStep, type FormulaContent } from './formulas/content.js';
export {
  limit as pointLimit,
  measured as pointMeasured,
  planContent,
  pointClass,
  pointFrequency,
  pointIfNotMonitored,
  pointIfOutside,
  pointStep,
  type Limit,
  type PlanContent,
  type PointContent,
} from './plans/content.js';
export { inSteps, scaleSteps, type InSteps, type WeighedIn } from './formulas/in-steps.js';
export { waterFor, type WaterFor, type WaterQuestion } from './formulas/water-for.js';
export { totalOf, type FormulaLookup, type TotalFormula, type TotalLine } from './formulas/total-of.js';
export { recentFriction, type FrictionFound, type RecentMix } from './makes/recent-friction.js';
export { official, phrase, phraseGroups, phraseKeys, type PhraseKey } from './phrases.js';
export { pointId } from './plans/plan-approved.js';
export { pointsFor, type AtHand } from './plans/points-for.js';
export { type Finding } from './baking/collections.js';
export { proposedCode, proposedDates, type BatchDates } from './baking/batch-code.js';
export { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './baking/release-findings.js';
export { holding as holdingDeviations, holdingNeeds, holdsRelease } from './control/holds-release.js';
export { verdictOf, verdictRule, type Asked, type Observation } from './control/verdict.js';
export { collectionNames, snapshotOf, workingSetOf, type Snapshot } from './kernel/snapshot.js';
export { divisionSum, type DivisionSum } from './makes/division-sum.js';
export { frictionCauses, frictionOf } from './makes/friction.js';
export { openBetween, proposedLines, type ProposedLine } from './makes/proposed-lines.js';
export { leftOf, movementsUntil } from './stock/left-of.js';
export { inStock, type LotInStock } from './stock/in-stock.js';
export { movedTo, type WhereNow } from './stock/moved-to.js';
export { allergensNewIn, type NewAllergens } from './stock/new-allergens.js';
export { openAt } from './stock/open-at.js';
export { lookAt, nameOf, codeOf, leftInLot, type Look, type LotCode } from './night/look.js';
export { nightView, type NightView } from './night/night-view.js';
export { makesOf, makeView, type LineView, type MakeView, type RunView } from './night/makes.js';
export { loadsOf, loadView, type LoadView } from './night/loads.js';
export { batchesOf, batchView, type BatchView } from './night/batches.js';
export { onHandOf, type LotOnHand, type ProductOnHand } from './night/on-hand.js';
export { dueReadings, type DueView } from './night/due.js';
export { timersOf, type TimerView } from './night/timers.js';
export { deviationView, openDeviations, type DeviationView } from './night/deviations.js';
export { inUseView, type InUseView } from './night/in-use.js';
export { readingsOf, type ReadingView } from './night/readings.js';
export { stagesOf, type StageView } from './night/stages.js';
export {
  counterAnswers,
  type CounterAnswer,
  type CounterOpening,
  type CounterProduct,
  type ProductAnswers,
} from './counter/counter-answers.js';
export { lotAllergens, usedOf, type Touched, type Used, type UsedFlow, type UsedLot } from './counter/lot-allergens.js';
export * from './sums/labels/index.js';
