export * from './kernel/problems.js';
export * from './sums/calculation.js';
export * from './sums/calculations.js';
export * from './sums/statistics/index.js';
export * from './sums/quantity/index.js';
export * from './sums/food-safety/index.js';
