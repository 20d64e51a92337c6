export * from './access.js';
export * from './entries.js';
export * from './night.js';
export * from './seals.js';
export * from './trace.js';
