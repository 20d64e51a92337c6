import { createRunner } from 'jest-light-runner';

/** A guard against hanging, not a measure: the machine may be busy. */
const longest = 900_000;

/**
 * Runs test files by Node's own module loading (`loader.mjs`). Jest's own runner loads everything anew for each file, in a sandbox: half of the time of the
 * whole suite went into that. What a test leaves behind in a module is there for the next one of its worker; nothing here keeps such a thing.
 */
export default class Runner extends createRunner({ runtime: 'child_process' }) {
  async _runTest(test) {
    let timer;
    const late = new Promise((_, reject) => {
      timer = setTimeout(() => reject(new Error(`${test.path} did not end within ${longest / 60_000} minutes.`)), longest);
    });
    try {
      return await Promise.race([super._runTest(test), late]);
    } finally {
      clearTimeout(timer);
    }
  }
}
