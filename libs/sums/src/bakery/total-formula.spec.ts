import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { totalFormula } from './total-formula.js';

const leaven = {
  name: 'leaven',
  grams: 2180,
  flour: false,
  preferment: [
    { name: 'rye flour', grams: 1, flour: true },
    { name: 'Water', grams: 1, flour: false },
  ],
};
const rest = [
  { name: 'white flour', grams: 8720, flour: true },
  { name: 'water', grams: 6758, flour: false },
  { name: 'salt', grams: 218, flour: false },
];
const total = (ingredients: unknown, view?: string) => {
  const out = totalFormula.calculate({ ingredients, ...(view === undefined ? {} : { view }) });
  if (!out.ok) throw new Error(`refused ${out.field}: ${out.acceptable}`);
  return out.value;
};
const refusal = (body: unknown) => {
  const out = totalFormula.calculate(body);
  return out.ok ? 'answered' : `${out.field}: ${out.acceptable}`;
};
const mg = (grams: number) => Math.round(grams * 1000);

describe('total-formula', () => {
  it('counts the flour of a preferment and puts lines of one name together', () => {
    const out = total([leaven, ...rest]);
    expect(out).toMatchObject({ view: 'total', totalGrams: 17_876, flourGrams: 9810, prefermentedFlourPercent: 11.111 });
    expect(out.lines.map((l) => [l.name, l.grams, l.bakersPercent, l.prefermentGrams])).toEqual([
      ['rye flour', 1090, 11.111, 1090],
      ['Water', 7848, 80, 1090],
      ['white flour', 8720, 88.889, 0],
      ['salt', 218, 2.222, 0],
    ]);
  });

  it('shows the formula as written when asked, and says so', () => {
    const out = total([leaven, ...rest], 'as-written');
    expect(out).toMatchObject({
      view: 'as-written',
      flourGrams: 8720,
      prefermentedFlourPercent: null,
      explanation: expect.stringContaining('as written'),
    });
    expect(out.lines.map((l) => l.bakersPercent)).toEqual([25, 100, 77.5, 2.5]);
  });

  it('comes to the same whether a preferment is a line with parts or parts with its name', () => {
    const named = [
      { name: 'rye flour', grams: 1090, flour: true, preferment: 'leaven' },
      { name: 'Water', grams: 1090, flour: false, preferment: 'leaven' },
    ];
    expect(total([...named, ...rest]).lines).toEqual(total([leaven, ...rest]).lines);
  });

  it('keeps the mass, whatever the parts', () => {
    const amount = fc.double({ min: 0.001, max: 9000, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.record({ grams: amount, parts: fc.array(amount, { minLength: 1, maxLength: 6 }) }), { maxLength: 6 }),
        amount,
        (preferments, white) => {
          const lines = preferments.map(({ grams, parts }, i) => ({
            name: `preferment ${i}`,
            grams,
            flour: false,
            preferment: parts.map((g, k) => ({ name: `part ${k}`, grams: g, flour: k % 2 === 0 })),
          }));
          const out = total([{ name: 'white flour', grams: white, flour: true }, ...lines]);
          expect(out.lines.reduce((sum, l) => sum + mg(l.grams), 0)).toBe(mg(out.totalGrams));
          expect(out.totalGrams).toBeCloseTo(white + preferments.reduce((sum, p) => sum + p.grams, 0), 2);
          expect(out.lines.reduce((sum, l) => sum + (l.flour ? mg(l.bakersPercent) : 0), 0)).toBe(100_000);
        },
      ),
    );
  });

  // Exact shares of unlike weights once had denominators that grew with every line until no answer came.
  it('answers for the longest formula of the most unlike weights', () => {
    const long = Array.from({ length: 199 }, (_, i) => ({
      name: `preferment ${i}`,
      grams: Math.sqrt(i + 2),
      flour: false,
      preferment: Array.from({ length: 40 }, (_part, k) => ({ name: `part ${k}`, grams: Math.sqrt(k + 2 * i + 3), flour: k % 2 === 0 })),
    }));
    const out = total([{ name: 'white flour', grams: Math.PI, flour: true }, ...long]);
    expect(out.lines.reduce((sum, l) => sum + mg(l.grams), 0)).toBe(mg(out.totalGrams));
  });

  it('refuses a preferment that cannot be taken apart', () => {
    const unknown = { name: 'leaven', grams: 5, flour: false, preferment: true };
    expect(refusal({ ingredients: [unknown, ...rest] })).toMatch(/^ingredients.0.preferment: .*parts/);
    expect(refusal({ ingredients: [{ ...leaven, flour: true }, ...rest] })).toMatch(/^ingredients.0.flour: false/);
    expect(refusal({ ingredients: [{ ...leaven, preferment: [{ name: 'x', grams: 0, flour: true }] }, ...rest] })).toMatch(
      /^ingredients.0.preferment: .*more than 0/,
    );
    expect(refusal({ ingredients: [...rest, { name: 'Salt', grams: 1, flour: true }] })).toMatch(/^ingredients.3: .*flour on every line/);
    expect(refusal({ ingredients: rest.slice(1) })).toMatch(/flour: true/);
    expect(refusal({ ingredients: rest, view: 'final' })).toMatch(/^view: /);
  });
});
