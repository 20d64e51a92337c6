export * from './kernel/problems.js';
export * from './sums/calculation.js';
export * from './sums/calculations.js';
