import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { inForceDecidedIn } from './_in-force.js';

const root = path.resolve(import.meta.dirname, '../..');
const files = execFileSync('git', ['ls-files', '-z', 'libs', 'apps'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter(
    (f) => /\/src\/.*\.tsx?$/.test(f) && !/\.spec\.tsx?$|\/generated\/|^libs\/(kernel|sums|standards|ledger|tooling|api-client)\//.test(f),
  );

/** Where it is decided which version, plan or specification is in force; everything else asks there. */
const home = 'libs/records/src/control/in-force.ts';
/** What looks the same and decides nothing of it: what it asks, and why. The list only shrinks. */
const reads: Readonly<Record<string, readonly [what: RegExp, why: string]>> = {
  'apps/api/src/modules/catalogue/catalogue.query.ts': [/specification/, 'all specifications in their order'],
  'apps/api/src/modules/formulas/formulas.query.ts': [
    /formula/,
    'the newest version with its content, and all of one formula in their order',
  ],
  'apps/api/src/modules/standing/names-of.query.ts': [/material|specification/, 'what a thing is called now'],
  'apps/api/src/modules/inspection/period-rows.query.ts': [/since < /, 'which rows an officer’s page looks at, and judges itself'],
  'apps/api/src/modules/night/night.query.ts': [/plan_version/, 'which plans a device is sent, and judges itself'],
  'apps/api/src/modules/plans/plan-drafts.ts': [/numbers/, 'the number that a draft would have'],
  'apps/api/src/modules/plans/plans.query.ts': [/plan_version/, 'all versions in their order'],
  'apps/api/src/platform/ledger/store.ts': [/since <= /, 'since when a lot is clear'],
  'apps/web/src/features/formulas/formula-versions.tsx': [/numbers/, 'what a version changed of the one before it'],
  'apps/web/src/features/plans/plan-history.tsx': [/numbers/, 'what a version changed of the one before it'],
  'libs/records/src/standing/use-by.ts': [/since/, 'when something was first used'],
  'libs/views/src/counter/news-of-today.ts': [/since/, 'which specifications were accepted today'],
};

const decidedIn = (file: string): string[] => inForceDecidedIn(file, readFileSync(path.join(root, file), 'utf8')).map(({ what }) => what);

describe('what is in force', () => {
  it('is decided in one place', () => {
    const second = files
      .filter((f) => f !== home)
      .flatMap((f) => decidedIn(f).flatMap((what) => (reads[f]?.[0].test(what) ? [] : [`${f} ${what}`])));
    expect(second).toEqual([]);
  });

  it('has no exception that nothing needs', () => {
    for (const [file, [what]] of Object.entries(reads)) expect([file, decidedIn(file).some((one) => what.test(one))]).toEqual([file, true]);
    expect(decidedIn(home).length).toBeGreaterThan(0);
  });

  it.each<[string, string[]]>([
    ['const plan = plans.findLast((p) => p.since <= at);', ['compares since']],
    ['const retired = ends.some((a) => a.at >= v.since);', ['compares since']],
    ['const newest = versions.sort((a, b) => b.number - a.number)[0];', ['compares numbers']],
    ['if (!other || v.number > other.number) newest.set(v.formula, v);', ['compares numbers']],
    ["const sql = 'SELECT DISTINCT ON (formula) * FROM formula_version ORDER BY formula';", ['asks DISTINCT ON (formula)']],
    [
      'const sql = `SELECT id FROM plan_version WHERE organisation = $1 ORDER BY since DESC LIMIT 1`;',
      ['asks FROM plan_version WHERE organisation = $'],
    ],
    ['const sql = `SELECT id FROM specification s WHERE s.since <= $2`;', ['asks since <= ']],
    ['const at = planInForce(plans, site, now)?.since; rows.sort((a, b) => (a.since < b.since ? -1 : 1));', []],
  ])('finds a second place: %s', (planted, found) => {
    expect(inForceDecidedIn('planted.ts', planted).map(({ what }) => what)).toEqual(found);
  });
});
