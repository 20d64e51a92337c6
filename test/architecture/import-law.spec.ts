import path from 'node:path';
import { cp } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from '@jest/globals';
import { cruised, type Cruise } from './_cruise.js';
import { allowed, planted, plantedTree } from './_planted-imports.js';

const root = path.resolve(import.meta.dirname, '../..');

let cruise: Cruise;
let broken: Cruise;
beforeAll(async () => {
  const tree = await plantedTree();
  await cp(path.join(root, 'libs/tooling'), path.join(tree.folder, 'libs/tooling'), { recursive: true });
  try {
    [cruise, broken] = await Promise.all([cruised(root), cruised(tree.folder)]);
  } finally {
    await tree.remove();
  }
});

const said = (of: Cruise) => of.summary.violations.map((v) => `${v.rule.name}: ${v.from} → ${v.to}`).sort();

describe('the import law', () => {
  it('is kept', () => {
    expect(said(cruise)).toEqual([]);
  });

  it('sees what our packages import of each other', () => {
    const writer = cruise.modules.find((m) => m.source.endsWith('platform/ledger/ledger-writer.ts'));
    expect(writer?.dependencies.some((d) => !d.couldNotResolve && d.module === '@bakehouse/records')).toBe(true);
  });

  it('has no rule that matches no file', () => {
    const sources = cruise.modules.map((m) => m.source);
    const idle = cruise.summary.ruleSetUsed.forbidden.filter(({ from }) => {
      const patterns = [from.path ?? '.'].flat().map((p) => new RegExp(p));
      return !sources.some((s) => patterns.some((p) => p.test(s)));
    });
    expect(idle.map((r) => r.name)).toEqual([]);
  });

  it('has a planted import for every rule', () => {
    expect(Object.keys(planted).sort()).toEqual(cruise.summary.ruleSetUsed.forbidden.map((r) => r.name).sort());
  });

  it('has every planted import found, by its rule and no other', () => {
    const wanted = Object.entries(planted).flatMap(([rule, imports]) => imports.map(([from, to]) => `${rule}: ${from} → ${to}`));
    expect(said(broken)).toEqual(wanted.sort());
  });

  it('lets pass what is allowed', () => {
    const seen = broken.modules.flatMap((m) => m.dependencies.map((d) => `${m.source} → ${d.resolved}`));
    expect(seen).toEqual(expect.arrayContaining(allowed.map(([from, to]) => `${from} → ${to}`)));
  });
});
