// Runs test files in workers that load modules by Node itself (`loader.mjs`) and keep what they have loaded. Jest's own runner loads every module anew for
// each file, in a sandbox: half of the time of the whole suite. What a test leaves in a module is there for the next file of its worker, so none does.
import path from 'node:path';
import { Worker } from 'jest-worker';
import { formatResultsErrors } from 'jest-message-util';

/** A guard against hanging, not a measure: the machine may be busy. No test has one of its own. */
const testTimeout = 300_000; // ms

export default class Runner {
  constructor(globalConfig) {
    this.globalConfig = globalConfig;
  }

  async runTests(tests, watcher, onStart, onResult, onFailure) {
    const { maxWorkers, workerIdleMemoryLimit, testNamePattern } = this.globalConfig;
    const queue = [...tests];
    const work = async () => {
      let worker = begun();
      for (let test = queue.shift(); test && !watcher.isInterrupted(); test = queue.shift()) {
        await onStart(test);
        try {
          const ran = await worker.runFile(test.path, { testNamePattern, testTimeout });
          await onResult(test, asJest(ran, test, this.globalConfig));
          if (ran.memory < (workerIdleMemoryLimit ?? Infinity)) continue;
        } catch (error) {
          await onFailure(test, error);
        }
        await worker.end();
        worker = begun();
      }
      await worker.end(); // one that something keeps open is ended by force
    };
    await Promise.all(Array.from({ length: maxWorkers }, work));
  }
}

/**
 * One process. Its own limit of memory is not used: it counts a new beginning as a failure, of whatever file is sent meanwhile. And nothing is tried twice: a
 * process that ends while it runs a file fails that file.
 */
function begun() {
  const worker = new Worker(path.join(import.meta.dirname, 'run-file.cjs'), {
    exposedMethods: ['runFile'],
    numWorkers: 1,
    maxRetries: 0,
    forkOptions: {
      execArgv: ['--disable-warning=ExperimentalWarning', '--import', path.join(import.meta.dirname, 'register.mjs')],
      stdio: 'pipe',
    },
  });
  worker.getStdout()?.pipe(process.stdout, { end: false });
  worker.getStderr()?.pipe(process.stderr, { end: false });
  return worker;
}

/** What Jest's reporters read of a file. */
function asJest({ start, end, tests, unhandledErrors }, { path: testFilePath, context: { config } }, globalConfig) {
  const testResults = tests.map(({ names, errors, ...rest }) => ({
    ...rest,
    ancestorTitles: names.slice(0, -1),
    title: names.at(-1),
    fullName: names.join(' '),
    failureMessages: errors,
    failureDetails: [],
    location: null,
  }));
  const count = (status) => tests.filter((t) => t.status === status).length;
  const stack = unhandledErrors.join('\n\n');
  const failures = formatResultsErrors(testResults, config, globalConfig, testFilePath);
  return {
    testFilePath,
    testResults,
    numFailingTests: count('failed'),
    numPassingTests: count('passed'),
    numPendingTests: count('pending'),
    numTodoTests: count('todo'),
    perfStats: {
      start,
      end,
      loadTestEnvironmentStart: start,
      loadTestEnvironmentEnd: start,
      setupFilesStart: start,
      setupFilesEnd: start,
      runtime: end - start,
      slow: (end - start) / 1000 > config.slowTestThreshold,
    },
    failureMessage: [failures, stack].filter(Boolean).join('\n') || null,
    ...(stack ? { testExecError: { message: 'after its tests', stack } } : {}),
    leaks: false,
    openHandles: [],
    skipped: false,
    snapshot: { added: 0, fileDeleted: false, matched: 0, unchecked: 0, uncheckedKeys: [], unmatched: 0, updated: 0 },
  };
}
