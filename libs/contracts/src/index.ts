export * from './access.js';
export * from './counter.js';
export * from './entries.js';
export * from './goods.js';
export * from './night.js';
export * from './seals.js';
export * from './trace.js';
