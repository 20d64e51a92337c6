export { collections } from './rows/collections.js';
export type { Change, CollectionName, Collections, Lookups, Need, Row, Rows, State } from './base/state.js';
export { defineKind, type AnyKind, type ReadEntry } from './base/kind.js';
export { type BatchDates, proposedCode, proposedDates } from './baking/batch-code.js';
export { releaseFindings, releaseNeeds, releaseRule, subjectsOf } from './baking/release-findings.js';
export { type Snapshot, collectionNames, snapshotOf, workingSetOf } from './base/snapshot.js';
export { type Dirty, type Origin, WorkingSet, type Written, distinctNeeds, keyOf } from './base/working-set.js';
export { holding as holdingDeviations, holdingNeeds, holdsRelease } from './control/holds-release.js';
export { answerOf, isFirstOfDay, pointApplies } from './control/points-required.js';
export { type Judged } from './control/judged.js';
export { type Asked, type Observation, verdictOf, verdictRule } from './control/verdict.js';
export {
  type DraftLine,
  type FormulaDraft,
  type PlanDraft,
  blankFormula,
  blankPlan,
  draftLines,
  formulaDraft,
  planDraft,
} from './drafts/draft-content.js';
export { type DraftProblem, formulaDraftProblems, planDraftProblems } from './drafts/draft-problems.js';
export {
  type AllergenAnswer,
  type AllergenSources,
  type Declared,
  formulaAllergens,
  productAllergens,
} from './formulas/formula-allergens.js';
export { type Scaled, type ScaledLine, type Wanted, formulaPercents, scaledTo, scaledToPieces } from './formulas/formula-amounts.js';
export { type InSteps, type WeighedIn, inSteps, scaleSteps } from './formulas/in-steps.js';
export { type FormulaLookup, type TotalFormula, type TotalLine, totalOf } from './formulas/total-of.js';
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
export { type DivisionSum, divisionSum } from './makes/division-sum.js';
export { frictionCauses, frictionOf } from './makes/friction.js';
export { type ProposedLine, openBetween, proposedLines } from './makes/proposed-lines.js';
export { type FrictionFound, type RecentMix, recentFriction } from './makes/recent-friction.js';
export { type WaterFor, type WaterQuestion, waterFor } from './makes/water-for.js';
export { type PhraseKey, official, phrase, phraseGroups, phraseKeys } from './phrases.js';
export { limitText } from './plans/limit-text.js';
export { pointId } from './plans/plan-approved.js';
export { type AtHand, pointsFor } from './plans/points-for.js';
export { type Finding, loadStepType } from './rows/baking.js';
export {
  actionType,
  cleanDownType,
  dispositionChoice,
  notTakenAnswer,
  subjectType,
  verdict,
  type NotTakenAnswer,
  type SubjectType,
  type Verdict,
} from './rows/control.js';
export { type FormulaContent, formulaContent, formulaType, processStep } from './rows/formula-content.js';
export { stageStep, stageWay } from './rows/makes.js';
export { channel, returnedDisposition } from './rows/out.js';
export {
  type Limit,
  type PlanContent,
  type PointContent,
  planContent,
  pointClass,
  pointFrequency,
  pointIfNotMonitored,
  pointIfOutside,
  limit as pointLimit,
  measured as pointMeasured,
  pointStep,
} from './rows/plan-content.js';
export { type Hazard, hazard } from './rows/recalls.js';
export { flowType, lotCodeState, lotTrouble, receiptChoice, weighedType } from './rows/stock.js';
export { leftOf, movementsUntil } from './stock/left-of.js';
export { type LotTrouble, troubleWith } from './stock/lot-trouble.js';
export { type WhereNow, movedTo } from './stock/moved-to.js';
export { type NewAllergens, allergensNewIn } from './stock/new-allergens.js';
export { openAt } from './stock/open-at.js';
