import { totalFormula } from '@bakehouse/sums';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { totalOf, type FormulaLookup } from './total-of.js';

const line = (material: string, grams: number, flour = false, madeBy: string | null = null) => ({
  material,
  name: material,
  mg: Math.round(grams * 1000),
  flour,
  madeBy,
});
const lookup =
  (of: Readonly<Record<string, ReturnType<FormulaLookup>>>): FormulaLookup =>
  (id) =>
    of[id];
const leaven = {
  type: 'starter',
  content: { lines: [line('rye', 1090, true), line('water', 1090), line('leaven', 420, false, 'leaven')] },
};
const nothing = lookup({});

describe('totalOf', () => {
  // A sourdough on a leaven of equal rye and water, 18,966 g: 10,900 g of flour in all, so water 72 %, salt 2 %, a tenth of the flour fermented. By hand.
  it('counts the flour and water of a starter, and leaves its own part out', () => {
    const lines = [
      line('leaven', 2180, false, 'leaven'),
      line('white', 8720, true),
      line('wholemeal', 1090, true),
      line('water', 6758),
      line('salt', 218),
    ];
    const total = totalOf('sourdough', { lines }, lookup({ leaven }));
    expect(total).toMatchObject({ totalMg: 18_966_000, flourMg: 10_900_000, prefermentedFlourPpm: 100_000 });
    expect(total.lines.map((l) => [l.material, l.mg, l.percent, l.prefermentMg])).toEqual([
      ['rye', 1_090_000, 10, 1_090_000],
      ['water', 7_848_000, 72, 1_090_000],
      ['white', 8_720_000, 80, 0],
      ['wholemeal', 1_090_000, 10, 0],
      ['salt', 218_000, 2, 0],
    ]);
  });

  it('takes old dough of its own apart as the rest of the dough', () => {
    const total = totalOf(
      'baguette',
      { lines: [line('flour', 1000, true), line('water', 660), line('old', 166, false, 'baguette')] },
      nothing,
    );
    expect(total.lines.map((l) => [l.material, l.mg, l.percent])).toEqual([
      ['flour', 1_100_000, 100],
      ['water', 726_000, 66],
    ]);
  });

  it('ends where two formulas take of each other, and keeps a filling and what nobody makes as lines', () => {
    const round = lookup({
      a: { type: 'preferment', content: { lines: [line('flour', 1, true), line('b', 1, false, 'b')] } },
      b: { type: 'preferment', content: { lines: [line('water', 1), line('a', 1, false, 'a')] } },
      jam: { type: 'filling', content: { lines: [line('fruit', 1)] } },
    });
    expect(
      totalOf('x', { lines: [line('a', 100, false, 'a'), line('jam', 10, false, 'jam'), line('lost', 5, false, 'lost')] }, round).lines.map(
        (l) => [l.material, l.mg],
      ),
    ).toEqual([
      ['flour', 50_000],
      ['water', 50_000],
      ['jam', 10_000],
      ['lost', 5000],
    ]);
    expect(totalOf('own', { lines: [line('own', 5, false, 'own')] }, nothing).lines.map((l) => [l.material, l.mg])).toEqual([
      ['own', 5000],
    ]);
    expect(totalOf('sweet', { lines: [line('sugar', 5)] }, nothing)).toMatchObject({
      flourMg: 0,
      prefermentedFlourPpm: null,
      lines: [{ percent: null }],
    });
  });

  const flours = fc.array(fc.record({ grams: fc.integer({ min: 1, max: 50_000 }), flour: fc.boolean() }), { minLength: 1, maxLength: 8 });

  it('sums exactly to the formula as written; the flours are exactly 100 %', () => {
    fc.assert(
      fc.property(flours, flours, fc.integer({ min: 1, max: 9000 }), (own, inside, grams) => {
        const of = (some: typeof own, prefix: string) =>
          some.map((l, i) => line(`${prefix}${i % 3}${l.flour ? 'f' : ''}`, l.grams, l.flour));
        const lines = [line('flour', 1000, true), ...of(own, 'm'), line('poolish', grams, false, 'poolish')];
        const total = totalOf('x', { lines }, lookup({ poolish: { type: 'preferment', content: { lines: of(inside, 'm') } } }));
        expect(total.lines.reduce((mg, l) => mg + l.mg, 0)).toBe(lines.reduce((mg, l) => mg + l.mg, 0));
        expect(total.lines.reduce((sum, l) => sum + (l.flour ? Math.round((l.percent ?? 0) * 1000) : 0), 0)).toBe(100_000);
        expect(total.lines.every((l) => l.prefermentMg <= l.mg)).toBe(true);
      }),
    );
  });

  it('agrees with the calculation total-formula, which takes parts by name', () => {
    fc.assert(
      fc.property(flours, fc.integer({ min: 1, max: 9000 }), (inside, grams) => {
        const parts = inside.map((l, i) => line(`p${i}`, l.grams, l.flour));
        const total = totalOf(
          'x',
          { lines: [line('flour', 1000, true), line('poolish', grams, false, 'poolish')] },
          lookup({ poolish: { type: 'preferment', content: { lines: parts } } }),
        );
        const preferment = parts.map((p) => ({ name: p.name, grams: p.mg / 1000, flour: p.flour }));
        const sum = totalFormula.calculate({
          ingredients: [
            { name: 'flour', grams: 1000, flour: true },
            { name: 'poolish', grams, flour: false, preferment },
          ],
        });
        expect(sum.ok && sum.value.lines.map((l) => [l.name, l.flour])).toEqual(total.lines.map((l) => [l.material, l.flour]));
        // that sum works in micrograms and rounds percentages there: they may be a step of 0.001 % and of 1 mg apart
        for (const [i, l] of total.lines.entries()) {
          expect(Math.abs((sum.ok ? (sum.value.lines[i]?.grams ?? NaN) : NaN) * 1000 - l.mg)).toBeLessThan(1.01);
          expect(Math.abs((sum.ok ? (sum.value.lines[i]?.bakersPercent ?? NaN) : NaN) - (l.percent ?? NaN))).toBeLessThan(0.001_01);
        }
      }),
    );
  });
});
