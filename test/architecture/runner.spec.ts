import { execFile } from 'node:child_process';
import { mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import * as z from 'zod';

const root = path.resolve(import.meta.dirname, '../..');

/** What each planted file does wrong, or right. */
const planted = {
  fails: `it('is two', () => { expect(1).toBe(2); }); it('is one', () => { expect(1).toBe(1); });`,
  'asserts-too-little': `it('asserts twice', () => { expect.assertions(2); expect(1).toBe(1); });`,
  'fails-before': `beforeAll(() => { throw new Error('before'); }); it('runs', () => { expect(1).toBe(1); });`,
  'fails-after': `afterAll(() => { throw new Error('after'); }); it('runs', () => { expect(1).toBe(1); });`,
  'rejects-unheard': `it('waits', async () => { void Promise.reject(new Error('nobody')); await new Promise((r) => { setImmediate(r); }); expect(1).toBe(1); });`,
  ends: `it('ends the process', () => { process.exit(0); });`,
  'imports-nothing': `import './none.js'; it('runs', () => { expect(1).toBe(1); });`,
  'has-no-test': `describe('nothing', () => {});`,
  'replaces-json': `it('reads', () => { const { parse } = JSON; JSON.parse = (text) => parse(text); expect(JSON.parse('1')).toBe(1); });`,
  'leaves-open': `it('leaves a timer', () => { setInterval(() => undefined, 1000); expect(1).toBe(1); });`,
};
const imports = `import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';\n`;

const Results = z.object({
  success: z.boolean(),
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  testResults: z.array(z.object({ name: z.string(), status: z.string(), message: z.string() })),
});

let folder: string;
let results: z.infer<typeof Results>;
beforeAll(async () => {
  folder = await realpath(await mkdtemp(path.join(tmpdir(), 'planted-tests-')));
  for (const [name, text] of Object.entries(planted)) await writeFile(path.join(folder, `${name}.spec.ts`), imports + text);
  const config = { rootDir: folder, runner: path.join(root, 'libs/tooling/tests/runner.mjs'), testMatch: ['**/*.spec.ts'] };
  const jest = path.join(root, 'node_modules/jest/bin/jest.js');
  const out = path.join(folder, 'results.json');
  const flags = ['--config', JSON.stringify(config), '--maxWorkers=2', '--json', `--outputFile=${out}`];
  await new Promise((done) => execFile(process.execPath, [jest, ...flags], { cwd: root }, done));
  results = Results.parse(JSON.parse(await readFile(out, 'utf8')));
});
afterAll(() => rm(folder, { recursive: true }));

const fileOf = (name: string) => results.testResults.find((r) => path.basename(r.name) === `${name}.spec.ts`);

describe('the runner of the tests', () => {
  it.each([
    'fails',
    'asserts-too-little',
    'fails-before',
    'fails-after',
    'rejects-unheard',
    'ends',
    'imports-nothing',
    'has-no-test',
    'replaces-json',
  ])('has a file that %s fail, and says why', (name) => {
    expect(fileOf(name)?.status).toBe('failed');
    expect(fileOf(name)?.message).not.toBe('');
  });

  it('ends a worker that a test keeps open', () => {
    expect(fileOf('leaves-open')?.status).toBe('passed');
  });

  it('counts each test once', () => {
    expect(results).toMatchObject({ success: false, numFailedTests: 3, numPendingTests: 0 });
  });
});
