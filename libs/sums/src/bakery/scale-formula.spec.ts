import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { scaleFormula } from './scale-formula.js';

const lean = [
  { name: 'flour', grams: 1000, flour: true },
  { name: 'water', grams: 600, flour: false },
  { name: 'yeast', grams: 2, flour: false },
  { name: 'salt', grams: 10, flour: false },
];
const mg = (grams: number) => Math.round(grams * 1000);
const scaled = (extra: Record<string, unknown>, ingredients: unknown = lean) => {
  const out = scaleFormula.calculate({ ingredients, ...extra });
  if (!out.ok) throw new Error(`refused ${out.field}: ${out.acceptable}`);
  return out.value;
};
const refusal = (body: unknown) => {
  const out = scaleFormula.calculate(body);
  return out.ok ? 'answered' : `${out.field}: ${out.acceptable}`;
};

describe('scale-formula', () => {
  it('divides the dough so that the lines sum to it exactly, with loss put on top', () => {
    expect(scaled({ pieces: 4, scalingGrams: 400 }).lines.map((l) => l.grams)).toEqual([992.556, 595.533, 1.985, 9.926]);
    expect(scaled({ doughGrams: 980, lossPercent: 2 })).toMatchObject({ doughGrams: 1000, wantedGrams: 980, lossGrams: 20 });
    expect(scaled({ doughGrams: 1000, roundToGrams: 5 }).lines.map((l) => l.grams)).toEqual([620, 375, 0, 5]);
    expect(scaled({ doughGrams: 1000, roundToGrams: 5 }).cautions.join(' ')).toMatch(/came out as 0 g/);
  });

  it('sums to the dough for every formula and step', () => {
    const lines = fc.array(fc.record({ grams: fc.double({ min: 0, max: 50_000, noNaN: true }), flour: fc.boolean() }), {
      minLength: 1,
      maxLength: 30,
    });
    fc.assert(
      fc.property(
        lines,
        fc.double({ min: 1, max: 500_000, noNaN: true }),
        fc.constantFrom(0.001, 0.01, 0.1, 1),
        fc.integer({ min: 0, max: 60 }),
        (some, doughGrams, roundToGrams, lossPercent) => {
          const ingredients = [{ name: 'flour', grams: 1000, flour: true }, ...some.map((line, i) => ({ name: `line ${i}`, ...line }))];
          const out = scaled({ doughGrams, roundToGrams, lossPercent }, ingredients);
          expect(out.lines.reduce((sum, l) => sum + mg(l.grams), 0)).toBe(mg(out.doughGrams));
          expect(mg(out.doughGrams) - mg(out.wantedGrams)).toBe(mg(out.lossGrams));
          expect(out.lines.reduce((sum, l) => sum + (l.flour ? mg(l.bakersPercent) : 0), 0)).toBe(100_000);
        },
      ),
    );
  });

  it('takes a preferment as a line with parts that sum to it, or by name, and says which view is shown', () => {
    const leaven = {
      name: 'leaven',
      grams: 333.333,
      flour: false,
      preferment: [
        { name: 'rye', grams: 1, flour: true },
        { name: 'water', grams: 1, flour: false },
      ],
    };
    const out = scaled({ doughGrams: 1000 }, [...lean, leaven]);
    const line = out.lines[4];
    expect(line?.parts?.reduce((sum, p) => sum + mg(p.grams), 0)).toBe(mg(line?.grams ?? NaN));
    expect(out).toMatchObject({ view: 'as-written', cautions: [expect.stringContaining('total-formula'), expect.any(String)] });
    expect(scaled({ doughGrams: 1000 }, [...lean, { name: 'rye', grams: 200, flour: true, preferment: 'leaven' }]).view).toBe('total');
  });

  it('refuses what it cannot scale, naming the field and what would do', () => {
    expect(refusal({ ingredients: lean })).toMatch(/^pieces: /);
    expect(refusal({ ingredients: lean, pieces: 4 })).toMatch(/^scalingGrams: /);
    expect(refusal({ ingredients: lean, pieces: 1.5, scalingGrams: 400 })).toMatch(/^pieces: a whole number/);
    expect(refusal({ ingredients: lean, pieces: 4, scalingGrams: 400, doughGrams: 5 })).toMatch(/^doughGrams: either/);
    expect(refusal({ ingredients: [], doughGrams: 5 })).toMatch(/^ingredients: at least one/);
    expect(refusal({ ingredients: lean.slice(1), doughGrams: 5 })).toMatch(/^ingredients: .*flour: true/);
    expect(refusal({ ingredients: [{ name: 'flour', grams: 5e-300, flour: true }, ...lean.slice(1)], doughGrams: 5 })).toMatch(/millionth/);
    expect(refusal({ ingredients: [{ ...lean[0], grams: -1 }], doughGrams: 5 })).toMatch(/^ingredients.0.grams: .*from 0/);
    for (const bad of [NaN, Infinity, 0, -5, '5', null])
      expect(refusal({ ingredients: lean, doughGrams: bad })).toMatch(/^doughGrams: .*above 0/);
    for (const bad of [100, -1, NaN]) expect(refusal({ ingredients: lean, doughGrams: 5, lossPercent: bad })).toMatch(/^lossPercent: /);
    expect(refusal({ ingredients: lean, doughGrams: 0.0001 })).toMatch(/^doughGrams: /);
    expect(refusal({ ingredients: lean, doughGrams: 5, weight: 'oz' })).toMatch(/^weight: /);
    expect(refusal({ ingredients: Array(100_000).fill(lean[0]), doughGrams: 5 })).toMatch(/at most 200/);
  });

  it('says the total of the percentages without a binary remainder', () => {
    const out = scaleFormula.calculate({
      ingredients: [12.523, 960.4, 400.286, 1144.7].map((grams, i) => ({ name: `line ${i}`, grams, flour: i % 2 === 0 })),
      pieces: 240,
      scalingGrams: 454.6,
      lossPercent: 3,
    });
    if (!out.ok) throw new Error(out.problem);
    expect(out.value.totalPercent).toBe(609.945); // by hand: 100 + (960.4 + 1144.7)/412.809 · 100 = 609.945
  });
});
