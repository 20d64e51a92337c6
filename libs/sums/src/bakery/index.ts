import type { Calculation } from '../calculation.js';
import { bakeLoss } from './bake-loss.js';
import { convert } from './convert.js';
import { frictionFactor } from './friction-factor.js';
import { ice } from './ice.js';
import { scaleFormula } from './scale-formula.js';
import { totalFormula } from './total-formula.js';
import { waterTemperature } from './water-temperature.js';

/** The bakery's own sums, in the order in which they are listed. */
export const bakeryCalculations: readonly Calculation[] = [
  scaleFormula,
  totalFormula,
  waterTemperature,
  frictionFactor,
  ice,
  bakeLoss,
  convert,
];

export { apportion, bakersPercents } from './apportion.js';
export type { Fraction } from './fraction.js';
export { unitCalled } from '@bakehouse/kernel';
export { bakeLoss, convert, frictionFactor, ice, scaleFormula, totalFormula, waterTemperature };
