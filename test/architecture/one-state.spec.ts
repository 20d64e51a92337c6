import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { statesDecidedIn } from './_states.js';

const root = path.resolve(import.meta.dirname, '../..');
const files = execFileSync('git', ['ls-files', '-z', 'libs', 'apps'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\.tsx?$/.test(f) && !/\.spec\.tsx?$|\/generated\/|^libs\/(kernel|sums|standards|ledger|tooling|api-client)\//.test(f));

/** Where it is decided how food stands; everything else reads it there. */
const homes = ['libs/records/src/standing/', 'libs/views/src/standing/'];
/** What looks the same and decides nothing about food: what it says, and why. The list only shrinks. */
const reads: Readonly<Record<string, readonly [what: RegExp, why: string]>> = {
  'apps/api/src/modules/inspection/period-rows.query.ts': [/deviation_closed/, 'which deviations an officer is shown'],
  'apps/api/src/modules/night/behind.query.ts': [/release/, 'which rows a device is sent, and judges itself'],
  'apps/api/src/modules/night/night.query.ts': [
    /recall_closed|deviation_closed|hold_lifted/,
    'which rows a device is sent, and judges itself',
  ],
  'apps/api/src/platform/database/embedded/embedded-postgres.ts': [/gives gone/, 'a process'],
  'apps/api/src/platform/ledger/concern-begins.ts': [
    /decided IS NULL|hold_lifted|deviation_closed/,
    'where a concern may begin: standing judges each, and what is watched too long changes no answer',
  ],
  'apps/api/src/platform/ledger/held-place-sql.ts': [/refusal_ended/, 'where a concern may begin: standing judges each'],
  'apps/api/src/platform/ledger/not-read-sql.ts': [
    /decided IS NULL/,
    'when a lot was used first, where a concern may begin: standing judges each',
  ],
  'apps/api/src/platform/ledger/whom-to-erase.query.ts': [/recall_closed/, 'which cases still need a name; no food is judged by it'],
  'apps/api/src/platform/health/health.controller.ts': [/gives ready/, 'a service'],
  'apps/web/src/features/night/sheet.tsx': [/gives destroyed/, 'the word for a state that it was given'],
  'apps/web/src/shared/concerns.tsx': [/counts/, 'a list, where there is anything to list'],
  'apps/web/src/shared/night/all-the-same.tsx': [/counts/, 'a list, where there is anything to list'],
  'libs/records/src/baking/hold-lifted.ts': [/looks up hold/, 'the hold that is lifted, and whether it was before'],
  'libs/records/src/closing/recall-closed.ts': [/looks up recallScopeLot/, 'what a case begins at, which standing follows'],
};

const decidedIn = (file: string): string[] => statesDecidedIn(file, readFileSync(path.join(root, file), 'utf8')).map(({ what }) => what);

describe('how food stands', () => {
  it('is decided in one place', () => {
    const second = files
      .filter((f) => !homes.some((home) => f.startsWith(home)))
      .flatMap((f) => decidedIn(f).flatMap((what) => (reads[f]?.[0].test(what) ? [] : [`${f} ${what}`])));
    expect(second).toEqual([]);
  });

  it('has no exception that nothing needs', () => {
    for (const [file, [what]] of Object.entries(reads)) expect([file, decidedIn(file).some((one) => what.test(one))]).toEqual([file, true]);
  });

  it.each<[string, string[]]>([
    ["const state = findings.some((f) => f.concern !== null) ? 'on-hold' : 'waits';", ['gives on-hold', 'gives waits']],
    ["const release = { state: batch.at < now ? { state: 'released' } : { state: 'may-go' } };", ['gives released', 'gives may-go']],
    ["function standing() { if (left === 0) return 'gone'; return null; }", ['gives gone']],
    ["function standings() { if (left === 0) { return [[id, 'gone']]; } return []; }", ['gives gone']],
    ["const onPaper = (o) => (o.concerns.length > 0 ? 'on hold' : '');", ['counts what speaks against it']],
    ['const held = lots.filter(({ concerns }) => concerns.length !== 0);', ['counts what speaks against it']],
    ["const refused = state.find('receiptDecision', 'lot', lot).some((r) => r.decision === 'refused');", ['looks up receiptDecision']],
    ["const unreleased = !state.find('release', 'batch', lot).some((r) => r.at <= at);", ['looks up release']],
    [
      "const open = 'SELECT h.lot FROM hold h WHERE NOT EXISTS (SELECT 1 FROM hold_lifted f WHERE f.hold = h.id)';",
      ['asks NOT EXISTS (… hold_lifted'],
    ],
    ['const gone = `SELECT lot FROM departure WHERE organisation = $1 AND decided IS NULL`;', ['asks decided IS NULL']],
    ["const word = release.state === 'on-hold' ? heldText : otherText; const f = state.find('batch', 'bakedOn', day);", []],
  ])('finds a second place: %s', (planted, found) => {
    expect(statesDecidedIn('planted.ts', planted).map(({ what }) => what)).toEqual(found);
  });
});
