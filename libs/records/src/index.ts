export { partiesAt } from './catalogue/party-stopped.js';
export { proposedCode, proposedDates, type BatchDates } from './baking/batch-code.js';
export { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './baking/release-findings.js';
export { defineKind, type AnyKind, type Kind, type ReadEntry } from './base/kind.js';
export { collectionNames, snapshotOf, workingSetOf, type Snapshot } from './base/snapshot.js';
export { takenBackAs } from './base/state.js';
export type { CarriedOver, Change, CollectionName, Collections, Lookups, Need, Row, Rows, State, TakenBack } from './base/state.js';
export { distinctNeeds, isFollowed, keyOf, type FollowedNeed } from './base/need-set.js';
export { WorkingSet, type Dirty, type Origin, type Written } from './base/working-set.js';
export { doesAway, foodOf } from './control/done-away.js';
export { openedBy } from './control/seen-readings.js';
export { holding as holdingDeviations, holdsRelease, letsUse, usingDispositions } from './control/holds-release.js';
export type { Judged } from './control/judged.js';
export { erasedText, maxErasedAtOnce, noSalt } from './corrections/words-erased.js';
export { loadsNeeds, loadsOfBatch } from './control/loads-of.js';
export {
  doubtAbout,
  doubtfulIfOut,
  doubtReason,
  countingNeeds,
  readingsThatCount,
  trustNeeds,
  unsettledAt,
  type Doubt,
  type ReadWith,
  type Unsettled,
} from './control/unsettled.js';
export { answerOf, formulaSteps, isFirstOfDay, pointApplies } from './control/points-required.js';
export { verdictOf, verdictRule, type Observation, type Requirement } from './control/verdict.js';
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
export {
  formulaFromStarter,
  materialsOfStarter,
  matched,
  missingFor,
  weightOf,
  type KnownMaterial,
} from './drafts/starters/from-starter.js';
export { starterFormulas } from './drafts/starters/formulas.js';
export { starterPlan } from './drafts/starters/plan.js';
export { starterKeys, type StarterFormula, type StarterMaterial } from './drafts/starters/starter.js';
export { formulaDraftProblems, loosenedByDraft, planDraftProblems, type DraftProblem } from './drafts/draft-problems.js';
export { allergenSources, type AllergenBooks } from './formulas/allergen-sources.js';
export {
  formulaAllergens,
  materialAllergens,
  productAllergens,
  type AllergenAnswer,
  type AllergenSources,
  type Declared,
} from './formulas/formula-allergens.js';
export { formulaPercents, scaledTo, scaledToPieces, type Scaled, type ScaledLine, type Wanted } from './formulas/formula-amounts.js';
export { inSteps, scaleSteps, type InSteps, type WeighedIn } from './formulas/in-steps.js';
export { totalOf, type FormulaLookup, type TotalFormula, type TotalLine } from './formulas/total-of.js';
export { plainName, sameName } from './base/same-name.js';
export { accessesInForce, letsSee } from './inspection/access-in-force.js';
export {
  kindNamed,
  kindOf,
  kinds,
  outcomeOf,
  payloadOf,
  type KindName,
  type NewEntry,
  type NewEntryOf,
  type OutcomeOf,
  type PayloadFor,
  type PayloadOf,
} from './kinds.js';
export { addedTo, type AddedTo } from './makes/added-on.js';
export { divisionSum, type DivisionSum } from './makes/division-sum.js';
export { frictionCauses, frictionOf } from './makes/friction.js';
export { neededOf, openBetween, proposedLines, type ProposedLine } from './makes/proposed-lines.js';
export { densityOfLot } from './control/quantity-of.js';
export { recentFriction, type FrictionFound, type RecentMix } from './makes/recent-friction.js';
export { doughUnit, frictionSource, leavenOf, waterFor, type Leaven, type WaterFor, type WaterQuestion } from './makes/water-for.js';
export { concernText, findingText, official, partText, phrase, phraseGroups, phraseKeys, type PhraseKey } from './phrases.js';
export { isNotValidated, notValidated } from './plans/not-validated.js';
export { limitText } from './plans/limit-text.js';
export { loosenedBy } from './plans/loosened.js';
export { loosenedInForce } from './plans/loosened-in-state.js';
export { looseningText, type ChoiceText } from './plans/loosening-text.js';
export { pointId } from './plans/plan-approved.js';
export { pointsFor, type AtHand } from './plans/points-for.js';
export { cookWarning, planWarnings, type PlanWarning, secondsFor } from './plans/usual-cook.js';
export { validationOf, type Validation } from './plans/validation-of.js';
export { asFindings } from './standing/as-findings.js';
export { projectionVersion } from './projection-version.js';
export { concernType, finding, loadStepType, type ConcernType, type Finding } from './rows/baking.js';
export { checkedAgainst, countedIn, madeHere, materialType, storage, type MaterialType } from './rows/catalogue.js';
export { collections } from './rows/collections.js';
export {
  actionType,
  cleanDownType,
  leavesContact,
  covers,
  dispositionChoice,
  namesFood,
  notTakenAnswer,
  subjectType,
  verdict,
  type NotTakenAnswer,
  type SubjectType,
  type Verdict,
} from './rows/control.js';
export {
  additionAfter,
  dateType,
  formulaContent,
  formulaType,
  longestReworkDays,
  processStep,
  type FormulaContent,
  type ReworkRule,
} from './rows/formula-content.js';
export { stageStep, stageWay } from './rows/makes.js';
export { channel, counterWay, decidedAmount, returnedDisposition } from './rows/out.js';
export {
  loosenedAsApproved,
  loosenedPoint,
  looseningBasis,
  type LoosenedAsApproved,
  type LoosenedPoint,
  type LooseningBasis,
} from './rows/loosened.js';
export { planContent, validated, type Life, type PastLife, type PlanContent, type PointContent } from './rows/plan-content.js';
export {
  lifeRule,
  limit as pointLimit,
  measured as pointMeasured,
  pointClass,
  pointFrequency,
  pointIfNotMonitored,
  pointIfOutside,
  pointStep,
  type LifeRule,
  type Limit,
} from './rows/point-fields.js';
export { contactAnswer, hazard, notifiedHow, notifiedTo, recallLotDecision, type Hazard, type NotifiedTo } from './rows/recalls.js';
export { checkWay, placeType } from './rows/sites.js';
export { countedInPieces, eachAmountOnce, flowType, lotCodeState, lotTrouble, receiptChoice, weighedType } from './rows/stock.js';
export {
  balanceCause,
  balanceFinding,
  lastKnown,
  leftByPlace,
  leftOf,
  measure,
  movementsUntil,
  perhapsGone,
  thereWas,
  type BalanceCause,
  type BalanceFinding,
  type LeftByPlace,
  type Measure,
} from './standing/left-of.js';
export { excessPpm, staysAway } from './standing/arithmetic.js';
export { hadCodeBefore, sharesPieces } from './standing/counted-twice.js';
export { doneWith, neverWas, withdrawnAt } from './standing/withdrawn.js';
export { alsoThisLot } from './standing/same-lot.js';
export { backAgain, byPlace, comesBack, counterWindows, soldOver, staysInTheHouse, type Moved } from './standing/places.js';
export { allowedNeeds, allowedSince, tellsOfUse, type HeldUse } from './standing/allowed-since.js';
export { decidedPart, type DecidedPart } from './standing/decided-part.js';
export { measureOf, movementNeeds, movementsOf, placeOf, wentToShop } from './standing/lot-rows.js';
export { type LeavingTrouble } from './out/leaving.js';
export { releaseOf, unreleased } from './standing/released.js';
export { countersOf, shelvesOf, type Shelves } from './standing/shelves.js';
export { lifeOfOpened } from './standing/life.js';
export { isPastBestBefore, troubleOf, troubleWith, type LotTrouble } from './standing/lot-trouble.js';
export { movedTo, type WhereNow } from './stock/moved-to.js';
export { heldPlaces, type HeldPlace } from './standing/at-held-place.js';
export { ovenDays } from './standing/where-was.js';
export { clearAmong, clearNeeds, inBoth, touchedBy, type Touched } from './standing/clear.js';
export { watchedBy, watchedCollections, watchedInTheHouse, type Watched } from './standing/watched.js';
export { isAlike, lotCodeKey, type Coded } from './standing/alike.js';
export { alikeHeld } from './standing/alike-held.js';
export { stillToRead } from './standing/not-read.js';
export { endsByDisposition, type Concern } from './standing/concern.js';
export { informedBy, lastThere, notReachedBy, notReachedNeeds, notToldOf, toldOfAll } from './closing/informed.js';
export { acceptedPart, type AcceptedPart } from './standing/accepted-part.js';
export { heldBy, heldNeeds } from './standing/held-by.js';
export {
  begunBy,
  firstOf,
  formulaAt,
  formulasInForce,
  inForce,
  planInForce,
  plansFor,
  plansInTurn,
  retiredSince,
  specificationsInForce,
  wasInForce,
} from './control/in-force.js';
export { concernIdsOf, concernsBehind } from './standing/concerns-behind.js';
export { withoutOpening } from './standing/past-life.js';
export { keepsNeeds, keepsUntil, pastUseBy } from './standing/use-by.js';
export { putInto, reworkRuleOf } from './standing/put-back.js';
export { againstRule, reworkText, ruledMake, type ReworkTrouble } from './standing/rework.js';
export { loosenedFormula } from './formulas/loosened-formula.js';
export { reworkWords } from './formulas/rework-words.js';
export { aboutToGoIn } from './makes/rework-in.js';
export { contentId, flowsInto, lateDays } from './standing/later-content.js';
export { upstreamOf } from './standing/links.js';
export { rowsBehind } from './standing/rows-behind.js';
export { leftThere, surelyElsewhere, type LeftThere } from './standing/at-site.js';
export { destroyedWhole, goneNeeds, surelyGone } from './standing/surely-gone.js';
export { roomNeeds, roomsIn } from './standing/room.js';
export { certainNeeds, concernsOf, standingNeeds, type Reaching } from './standing/standings.js';
export { surelyCameFrom, surelyReached, surelyThen, withPutOn, type Link, type RoomOf } from './standing/surely.js';
export { allergensNewIn, type NewAllergens } from './stock/new-allergens.js';
export { openAt } from './stock/open-at.js';
export { openNow } from './stock/open-now.js';
export { specificationsFor } from './stock/specifications-for.js';
