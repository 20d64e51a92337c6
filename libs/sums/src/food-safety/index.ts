import type { Calculation } from '../calculation.js';
import { ccpDecision } from './ccp-decision.js';
import { cooling } from './cooling.js';
import { equivalentHold } from './equivalent-hold.js';
import { guardedVerdict } from './guarded-verdict.js';
import { holding } from './holding.js';
import { lethality } from './lethality.js';
import { probeCheck } from './probe-check.js';
import { probeReference } from './probe-reference.js';
import { temperatureControlNeeded } from './temperature-control-needed.js';
import { zValue } from './z-value.js';

/** The food-safety calculations, in the order in which they are listed. */
export const foodSafetyCalculations: readonly Calculation[] = [
  lethality,
  equivalentHold,
  zValue,
  cooling,
  holding,
  temperatureControlNeeded,
  ccpDecision,
  guardedVerdict,
  probeReference,
  probeCheck,
];

export { boilingPoint, saturationKelvin, standardPressure, type BoilingPoint } from './boiling.js';
export { walkTree, ccpTrees, type CcpOutcome, type DecisionTree } from './ccp-trees.js';
export { judgeCooling, coolingRules } from './cooling.js';
export type { CoolingStage, CoolingVerdict, JudgedStage } from './cooling-stages.js';
export { holdMinutes } from './equivalent-hold.js';
export { judgeTemperatureRule, judgeTimeRule, type HoldingJudgement } from './holding.js';
export { temperatureRules, timeRules } from './holding-rules.js';
export { lethalMinutes, lethalMinutesInRange, logReductionCap } from './lethality.js';
export { probeOffset } from './probe-check.js';
export type { Profile, ProfilePoint } from './profile.js';
export { controlNeeded } from './temperature-control-needed.js';
export { fitLogD } from './z-value.js';
export {
  ccpDecision,
  cooling,
  equivalentHold,
  guardedVerdict,
  holding,
  lethality,
  probeCheck,
  probeReference,
  temperatureControlNeeded,
  zValue,
};
