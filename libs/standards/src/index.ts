export * from './gs1/index.js';
