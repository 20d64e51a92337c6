import { cp, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { beforeAll, describe, expect, it } from '@jest/globals';
import { arrowsOf, drawn, parts, wrongWay, type Part } from './_areas.js';
import { cruised, type Cruise } from './_cruise.js';
import { allowed, planted, plantedTree } from './_planted-imports.js';

const root = path.resolve(import.meta.dirname, '../..');

const page = path.join(root, 'DEVELOPERS.md');
const marked = /(?<=<!-- areas: drawn by test\/architecture\/import-law\.spec\.ts -->\n\n```\n)[^`]*(?=\n```\n\n<!-- \/areas -->)/;

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

describe('the areas of the tree', () => {
  it.each(parts)('$part: every area stands in the order, and the order names no other', (part: Part) => {
    const found = new Set(cruise.modules.flatMap((m) => (m.source.includes('node_modules') ? [] : (part.areaOf(m.source) ?? []))));
    expect(part.order.flat().sort()).toEqual([...found].sort());
  });

  it.each(parts)('$part: no arrow runs up, none beside', (part: Part) => {
    expect(wrongWay(part, arrowsOf(part, cruise))).toEqual([]);
  });

  it('are drawn in DEVELOPERS.md as they are (AREAS=write draws them anew)', async () => {
    const drawing = parts.map((part) => drawn(part, arrowsOf(part, cruise))).join('\n\n');
    const text = await readFile(page, 'utf8');
    if (process.env['AREAS'] === 'write') await writeFile(page, text.replace(marked, drawing));
    expect(marked.exec(await readFile(page, 'utf8'))?.[0]).toBe(drawing);
  });
});

describe('the test of the areas', () => {
  const part: Part = { part: 'x', areaOf: (file) => file.split('/')[0], order: [['top'], ['left', 'right'], ['low']] };
  type Import = readonly [source: string, resolved: string];
  const tree = (...imports: readonly Import[]): Cruise => ({
    modules: imports.map(([source, resolved]) => ({ source, dependencies: [{ couldNotResolve: false, module: resolved, resolved }] })),
    summary: { violations: [], ruleSetUsed: { forbidden: [] } },
  });

  it('finds an arrow up, one beside, a circle and an area that nobody placed', () => {
    const wrong = (...imports: readonly Import[]) => wrongWay(part, arrowsOf(part, tree(...imports)));
    expect(wrong(['top/a.ts', 'low/b.ts'], ['left/a.ts', 'low/b.ts'])).toEqual([]);
    expect(wrong(['low/a.ts', 'top/b.ts'])).toEqual(['low → top: low/a.ts → top/b.ts']);
    expect(wrong(['left/a.ts', 'right/b.ts'])).toEqual(['left → right: left/a.ts → right/b.ts']);
    expect(wrong(['top/a.ts', 'left/b.ts'], ['left/c.ts', 'top/d.ts'])).toHaveLength(1);
    expect(wrong(['top/a.ts', 'new/b.ts'])).toHaveLength(1);
    expect(wrong(['new/a.ts', 'low/b.ts'])).toHaveLength(1);
  });

  it('draws what imports what, from the top down', () => {
    const arrows = arrowsOf(part, tree(['top/a.ts', 'low/b.ts'], ['top/a.ts', 'left/b.ts'], ['left/a.ts', 'low/b.ts']));
    expect(drawn(part, arrows)).toBe('x\n  top → left low\n  left → low\n  right\n  low');
  });
});
