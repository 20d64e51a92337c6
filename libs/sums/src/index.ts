export { apportion, bakersPercents } from './bakery/apportion.js';
export { type Fraction, fraction, nearest, over, plus, sumOf, times, zero } from './bakery/fraction.js';
export { bakeLoss, bakeryCalculations, convert, frictionFactor, ice, scaleFormula, unitCalled } from './bakery/index.js';
export { totalFormula } from './bakery/total-formula.js';
export { waterTemperature } from './bakery/water-temperature.js';
export {
  type Calculation,
  type CalculationSpec,
  type Explained,
  type Fields,
  defineCalculation,
  explained,
  isFields,
  standardCaution,
} from './calculation.js';
export { calculations } from './calculations.js';
export { airPressure, altitudeRange, boilingPoint } from './food-safety/boiling.js';
export {
  type BoilingPoint,
  type CcpOutcome,
  type CoolingStage,
  type CoolingVerdict,
  type DecisionTree,
  type HoldingJudgement,
  type JudgedStage,
  type Profile,
  type ProfilePoint,
  ccpDecision,
  ccpTrees,
  controlNeeded,
  cooling,
  coolingRules,
  equivalentHold,
  fitLogD,
  foodSafetyCalculations,
  guardedVerdict,
  holdMinutes,
  holding,
  judgeCooling,
  judgeTemperatureRule,
  judgeTimeRule,
  lethalMinutesInRange,
  lethality,
  logReductionCap,
  probeCheck,
  probeOffset,
  probeReference,
  saturationKelvin,
  standardPressure,
  temperatureControlNeeded,
  temperatureRules,
  timeRules,
  walkTree,
  zValue,
} from './food-safety/index.js';
export { lethalMinutes } from './food-safety/lethality.js';
export { referenceBasis, usualProbeTolerance } from './food-safety/probe-check.js';
export {
  type Segment,
  allergenWord,
  cleanDownSequence,
  emphasised,
  inCapitals,
  ingredientList,
  labelCalculations,
  quid,
} from './labels/index.js';
export { averageQuantity, quantityCalculations, referenceTest } from './quantity/index.js';
export {
  capability,
  cusumChart,
  everyRule,
  ewmaChart,
  individualsChart,
  ruleNames,
  runRules,
  statisticsCalculations,
  xbarRChart,
  xbarSChart,
} from './statistics/index.js';
