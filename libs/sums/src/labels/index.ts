import type { Calculation } from '../calculation.js';
import { cleanDownSequence } from './clean-down-sequence.js';
import { ingredientList } from './ingredient-list.js';
import { quid } from './quid.js';

/** The calculations for labels and allergens, in the order in which they are listed. */
export const labelCalculations: readonly Calculation[] = [ingredientList, quid, cleanDownSequence];

export { emphasised, inCapitals, allergenWord, type Segment } from './emphasis.js';
export { cleanDownSequence, ingredientList, quid };
