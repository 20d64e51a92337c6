import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { notValidated } from '../../plans/not-validated.js';
import { planProblems } from '../../plans/plan-problems.js';
import { WorkingSet } from '../../base/working-set.js';
import { starterFormulas } from './formulas.js';
import { formulaFromStarter, matched, materialsOfStarter, missingFor, weightOf, type KnownMaterial } from './from-starter.js';
import { starterPlan } from './plan.js';
import { starterKeys } from './starter.js';

const id = (n: number): string => `0190a6d0-7b3c-7000-8000-${String(n).padStart(12, '0')}`;

describe('starter formulas', () => {
  it('are one for each key, each of other materials’ names', () => {
    expect(starterFormulas.map((s) => s.key)).toEqual([...starterKeys]);
  });

  // what a lean, a soft and an enriched white dough has of flour, from memory of the trade: salt 1 to 2.2 %, fresh yeast 1 to 6 %, liquid 50 to 70 %
  it.each(starterFormulas.map((s) => [s.name, s] as const))('%s has sane percentages, and its pieces fit into its dough', (_name, s) => {
    const share = (name: string): number => (s.lines.find((l) => l.of.name === name)?.share ?? 0) / 100;
    expect(s.lines.filter((l) => l.of.flour).reduce((sum, l) => sum + l.share, 0)).toBe(100_00);
    expect(share('Salt')).toBeGreaterThanOrEqual(1);
    expect(share('Salt')).toBeLessThanOrEqual(2.2);
    expect(share('Fresh yeast')).toBeGreaterThanOrEqual(1);
    expect(share('Fresh yeast')).toBeLessThanOrEqual(6);
    const liquid = share('Water') + share('Whole milk') + share('Whole egg');
    expect(liquid).toBeGreaterThanOrEqual(50);
    expect(liquid).toBeLessThanOrEqual(70);
    const total = s.lines.reduce((sum, l) => sum + weightOf(s, l.share), 0);
    const scrap = total - s.pieces * s.scalingMg;
    expect(scrap).toBeGreaterThanOrEqual(0);
    expect(scrap).toBeLessThan(s.scalingMg);
    const loss = 1 - s.bakedMg / s.scalingMg;
    expect(loss).toBeGreaterThan(0.08); // bread loses about 8 to 14 % in the oven, from memory
    expect(loss).toBeLessThan(0.14);
  });

  it('what a house has is meant by its name however it is written, and the rest is listed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...starterFormulas), fc.infiniteStream(fc.nat(3)), (s, ways) => {
        const known: KnownMaterial[] = materialsOfStarter(s).flatMap((m, i) => {
          const [way = 0] = ways.take(1);
          const name = [m.name, m.name.toUpperCase(), `  ${m.name.replaceAll(' ', '  ')} `, m.also[0] ?? m.name][way] ?? m.name;
          return i % 3 === 2 ? [] : [{ material: id(i), name, type: m.type }];
        });
        const missing = missingFor(s, known);
        const { content } = formulaFromStarter(s, known);
        for (const [i, line] of content.lines.entries()) expect(line.material === null).toBe(i % 3 === 2);
        expect(missing.map((m) => m.name)).toEqual(materialsOfStarter(s).flatMap((m, i) => (i % 3 === 2 ? [m.name] : [])));
      }),
    );
  });

  it('says of no product how many days it keeps: somebody has to', () => {
    for (const s of starterFormulas) expect(formulaFromStarter(s, []).content.products.map((p) => p.lifeDays)).toEqual([null]);
  });

  it('a product is never meant by an ingredient of its name', () => {
    const [s] = starterFormulas;
    if (!s) throw new Error('there is one');
    expect(matched(s.product, [{ material: id(1), name: s.product.name, type: 'ingredient' }])).toBeUndefined();
  });
});

describe('the starter plan', () => {
  it('says of each limit that it is not validated, and where its figure comes from', () => {
    for (const p of starterPlan.content.points) {
      expect(p.basis.startsWith(notValidated)).toBe(true);
      expect(p.basis).toMatch(/SI 2013\/2996|FDA Food Code|common practice, no source/);
    }
  });

  it('cannot be put in force while any point says so, and nothing else stands against it', () => {
    const state = new WorkingSet();
    const fields = planProblems(starterPlan.content, state).map((p) => p.field);
    expect(fields).toEqual(starterPlan.content.points.map((_, i) => `payload.content.points.${i}.basis`));
    const points = starterPlan.content.points.map((p) => ({ ...p, basis: 'Trials of this house, 12 bakes' }));
    expect(planProblems({ ...starterPlan.content, points }, state)).toEqual([]);
    for (const i of points.keys()) {
      const mixed = points.map((p, n) => (n === i ? { ...p, basis: `see file 7; ${notValidated.toUpperCase()}` } : p));
      expect(planProblems({ ...starterPlan.content, points: mixed }, state)).toHaveLength(1);
    }
  });
});
