import { bakeryCalculations } from './bakery/index.js';
import type { Calculation } from './calculation.js';
import { foodSafetyCalculations } from './food-safety/index.js';
import { labelCalculations } from './labels/index.js';
import { quantityCalculations } from './quantity/index.js';
import { statisticsCalculations } from './statistics/index.js';

/** The one list of calculations: the API, OpenAPI and the tests all read it. */
export const calculations: readonly Calculation[] = [
  ...statisticsCalculations,
  ...quantityCalculations,
  ...foodSafetyCalculations,
  ...bakeryCalculations,
  ...labelCalculations,
];
