import type { Calculation } from '../calculation.js';
import { averageQuantity } from './average-quantity.js';
import { referenceTest } from './reference-test.js';

export { averageQuantity, referenceTest };

/** The packers' rules and the inspector's reference test. */
export const quantityCalculations: readonly Calculation[] = [averageQuantity, referenceTest];
