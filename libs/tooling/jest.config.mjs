import path from 'node:path';

const common = {
  rootDir: path.resolve(import.meta.dirname, '../..'), // a relative one would depend on where Jest was started
  runner: path.join(import.meta.dirname, 'tests/runner.mjs'),
  modulePathIgnorePatterns: ['/dist/', '<rootDir>/.data/'],
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
  workerIdleMemoryLimit: '1500MB', // what a worker has loaded stays in its memory: above this, one begins anew with its next file
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
