export * from './entries.js';
export * from './trace.js';
