import path from 'node:path';

// Nest 12 is ESM only and Jest's own require cannot load ESM: run with --experimental-vm-modules (npm test does).
const swc = {
  jsc: {
    target: 'es2023',
    parser: { syntax: 'typescript', tsx: true, decorators: true },
    transform: { legacyDecorator: true, decoratorMetadata: true },
    keepClassNames: true,
  },
  module: { type: 'es6' },
  sourceMaps: 'inline',
};
const common = {
  rootDir: path.resolve(import.meta.dirname, '../..'), // a relative one would depend on where Jest was started
  testEnvironment: 'node',
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  transform: { '^.+\\.tsx?$': ['@swc/jest', swc] },
  transformIgnorePatterns: ['/node_modules/', '\\.js$', '\\.mjs$'],
  modulePathIgnorePatterns: ['/dist/', '<rootDir>/.data/'],
  moduleNameMapper: {
    '^@bakehouse/(kernel|sums|records|graph|views|contracts|ledger|standards|offline|api-client)$': '<rootDir>/libs/$1/src/index.ts', // source, not dist: no build before tests
    '^(\\.{1,2}/.*)\\.js$': '$1', // './x.js' in TypeScript source is ./x.ts on disk
  },
};
const onServer = {
  globalSetup: '<rootDir>/test/support/global-setup.mjs',
  globalTeardown: '<rootDir>/test/support/global-teardown.mjs',
};
const inBrowser = {
  globalSetup: '<rootDir>/test/support/browser-setup.mjs',
  globalTeardown: '<rootDir>/test/support/browser-teardown.mjs',
};
export default {
  workerIdleMemoryLimit: '1500MB', // modules of a test stay in its worker's memory: a worker that is above this begins anew with its next file
  testTimeout: 300_000, // a guard against hanging, not a measure: the machine may be busy. No test has one of its own
  projects: [
    {
      ...common,
      displayName: 'unit',
      testMatch: ['<rootDir>/libs/**/*.spec.ts', '<rootDir>/apps/*/src/**/*.spec.ts', '<rootDir>/test/{reference,scenarios}/**/*.spec.ts'],
    },
    { ...common, displayName: 'architecture', testMatch: ['<rootDir>/test/architecture/**/*.spec.ts'], ...onServer },
    { ...common, displayName: 'api', testMatch: ['<rootDir>/test/{api,faults,simulation,support}/**/*.spec.ts'], ...onServer },
    { ...common, displayName: 'browser', testMatch: ['<rootDir>/test/browser/**/*.spec.ts'], ...inBrowser },
  ],
};
