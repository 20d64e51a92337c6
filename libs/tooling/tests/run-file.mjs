// One test file in a worker, loaded by Node and run by Jest's own circus.
import { setImmediate as turn } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { addEventHandler, getState, resetState, run } from 'jest-circus';
import { expect } from './globals.mjs';
import { replaced } from './language.mjs';

const longestTest = Symbol.for('TEST_TIMEOUT_SYMBOL'); // where circus looks for it

/** What circus does not know of the expectations: whose they are, and the ones that were made without being thrown. */
addEventHandler((event) => {
  if (event.name === 'test_start') expect.setState({ currentTestName: nameOf(event.test), suppressedErrors: [] });
  if (event.name === 'test_done') {
    const errors = expect.extractExpectedAssertionsErrors().map(({ error }) => error);
    event.test.errors.push(...expect.getState().suppressedErrors, ...errors);
    event.test.numPassingAsserts = expect.getState().numPassingAsserts ?? 0;
  }
});

const nameOf = (test) => (test.parent ? `${nameOf(test.parent)} ${test.name}`.trim() : '');

/** What nobody caught, with what was running: it fails the file that runs then, or the next one where nothing did. */
const strays = [];
let running = 'no file yet';
for (const event of ['uncaughtException', 'unhandledRejection'])
  process.on(event, (error) => strays.push(`Nobody caught this (${event}, ${running}):\n${error?.stack ?? String(error)}`));

/** `file` is an absolute path; gives circus's results, each test's path without the root, and how long it all took in ms. */
export async function runFile(file, { testNamePattern, testTimeout }) {
  resetState();
  globalThis[longestTest] = testTimeout;
  if (testNamePattern) getState().testNamePattern = new RegExp(testNamePattern, 'i');
  expect.setState({ testPath: file, currentTestName: undefined, suppressedErrors: [], expand: false });
  const start = Date.now();
  running = `while ${file} ran`;
  await import(pathToFileURL(file).href);
  const { testResults, unhandledErrors } = await run();
  await turn(); // a rejection is told of once its turn is over
  running = `after ${file}`;
  const changed = replaced();
  if (changed.length > 0) strays.push(`It, or a library that it loads, puts its own in place of ${changed.join(', ')}.`);
  return {
    start,
    end: Date.now(),
    memory: process.memoryUsage.rss(),
    unhandledErrors: [...unhandledErrors, ...strays.splice(0)],
    tests: testResults.map(({ testPath, status, duration, errors, invocations, startedAt, numPassingAsserts }) => ({
      names: testPath.slice(1),
      status: status === 'done' ? (errors.length > 0 ? 'failed' : 'passed') : status === 'todo' ? 'todo' : 'pending',
      duration,
      errors,
      invocations,
      startedAt,
      numPassingAsserts,
    })),
  };
}
