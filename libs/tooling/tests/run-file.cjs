/* global exports */
// jest-worker loads its worker as CommonJS; what it does is a module.
exports.runFile = async (file, options) => (await import('./run-file.mjs')).runFile(file, options);
