import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { formulaPercents, scaledTo, scaledToPieces } from './formula-amounts.js';
import { formulaApproved } from './formula-approved.js';
import { formulaContent, type FormulaContent } from '../rows/formula-content.js';

const example = formulaContent.parse(formulaApproved.examples[0].content);
type Line = FormulaContent['lines'][number];
const line = (name: string, mg: number, flour = false): Line => ({ material: name, name, mg, flour, madeBy: null });
const of = (...lines: Line[]): FormulaContent => ({ ...example, lines });

describe('formulaPercents', () => {
  // 1000 g flour, 600 water, 2 yeast, 10 salt = 100/60/0.2/1 %: follows from the definition.
  it('all flours are 100 %', () => {
    expect(formulaPercents(of(line('flour', 1_000_000, true), line('water', 600_000), line('yeast', 2_000), line('salt', 10_000)))).toEqual(
      [100, 60, 0.2, 1],
    );
  });

  it('a formula without flour has none', () => {
    expect(formulaPercents(of(line('milk', 6_000_000), line('sugar', 1_200_000)))).toEqual([null, null]);
  });

  it('several flours sum to exactly 100 after rounding', () => {
    const flours = formulaPercents(of(line('a', 1, true), line('b', 1, true), line('c', 1, true)));
    expect(flours.reduce<number>((sum, p) => sum + Math.round((p ?? 0) * 1000), 0)).toBe(100_000);
  });
});

describe('scaledToPieces', () => {
  // 20 tins × 910, 12 bloomers × 465, 216 baps × 75, 1,200 old dough, 270 scrap: 41,450 g, which is the dough as written (practice, no source).
  const product = (id: string, scalingMg: number) => example.products.map((p) => ({ ...p, product: id, scalingMg }));
  const dough: FormulaContent = {
    ...of(line('flour', 25_000_000, true), line('water', 15_000_000), line('salt', 450_000), line('yeast', 500_000), line('oil', 500_000)),
    products: [...product('tin', 910_000), ...product('bloomer', 465_000), ...product('bap', 75_000)],
  };
  const wanted = [
    { product: 'tin', pieces: 20 },
    { product: 'bloomer', pieces: 12 },
    { product: 'bap', pieces: 216 },
  ];

  it('gives the dough of one night, line by line', () => {
    const scaled = scaledToPieces(dough, wanted, 1_470_000);
    expect(scaled).toMatchObject({
      ok: true,
      value: {
        mg: 41_450_000,
        lines: [
          { mg: 25_000_000, percent: 100 },
          { mg: 15_000_000, percent: 60 },
          { mg: 450_000, percent: 1.8 },
          { mg: 500_000, percent: 2 },
          { mg: 500_000, percent: 2 },
        ],
      },
    });
  });

  it.each([
    [[{ product: 'loaf', pieces: 1 }], 'unknown-material'],
    [[{ product: 'tin', pieces: 1.5 }], 'unacceptable-value'],
    [[{ product: 'tin', pieces: 0 }], 'unacceptable-value'],
    [[{ product: 'tin', pieces: 1_000_000 }], 'unacceptable-value'],
  ])('refuses %j', (pieces, problem) => {
    expect(scaledToPieces(dough, pieces)).toMatchObject({ ok: false, problem });
  });
});

describe('scaledTo', () => {
  it('the lines always sum to what was asked for, each within 1 mg of its share', () => {
    const lines = fc.array(fc.integer({ min: 1, max: 50_000_000 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(lines, fc.integer({ min: 1, max: 500_000_000 }), (mgs, mg) => {
        const scaled = scaledTo(of(...mgs.map((m, i) => line(`m${i}`, m, i === 0))), mg);
        const whole = mgs.reduce((a, b) => a + b, 0);
        expect(scaled.ok && scaled.value.lines.reduce((sum, l) => sum + l.mg, 0)).toBe(mg);
        expect(scaled.ok && scaled.value.lines.every((l, i) => Math.abs(l.mg - ((mgs[i] ?? 0) * mg) / whole) < 1.000_001)).toBe(true);
      }),
    );
  });
});
