import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { cleanDownSequence } from './clean-down-sequence.js';
import { goodOrder, lowerBound, orderCost } from './visiting-order.js';

const asked = (body: unknown) => {
  const out = cleanDownSequence.calculate(body);
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};
const orders = (items: readonly number[]): number[][] =>
  items.length < 2 ? [[...items]] : items.flatMap((one) => orders(items.filter((i) => i !== one)).map((rest) => [one, ...rest]));
const table = (n: number) =>
  fc.array(fc.array(fc.integer({ min: 0, max: 60 }), { minLength: n, maxLength: n }), { minLength: n, maxLength: n });
const makesOf = (n: number) => Array.from({ length: n }, (_, i) => ({ name: `make ${i}`, allergens: [] }));

describe('clean-down-sequence', () => {
  it('adds allergens one after another where that needs no clean-down', () => {
    const makes = [
      { name: 'nut', allergens: ['wheat', 'milk', 'almond'] },
      { name: 'plain', allergens: ['wheat'] },
      { name: 'milk', allergens: ['wheat', 'milk'] },
    ];
    expect(asked({ makes })).toMatchObject({ order: ['plain', 'milk', 'nut'], cost: 0, exact: true, lowerBound: 0 });
    expect(asked({ makes, mustBeLast: ['plain'], cleanDownCost: 20 })).toMatchObject({
      order: ['milk', 'nut', 'plain'],
      cost: 20,
      changes: [
        { cost: 0, cleanAway: [] },
        { from: 'nut', to: 'plain', cost: 20, cleanAway: ['milk', 'almond'] },
      ],
    });
    expect(asked({ makes, costs: [{ from: 'plain', to: 'milk', cost: 2.5 }], mustBeLast: ['nut'] })).toMatchObject({
      order: ['milk', 'plain', 'nut'],
      cost: 1,
    });
    expect(asked({ makes: makes.slice(0, 1) })).toMatchObject({ order: ['nut'], cost: 0, changes: [] });
  });

  it('costs what trying every order finds, with and without what must be last', () => {
    const cases = fc.integer({ min: 1, max: 7 }).chain((n) => fc.tuple(table(n), fc.subarray(Array.from({ length: n }, (_, i) => i))));
    fc.assert(
      fc.property(cases, ([costs, last]) => {
        const names = last.map((i) => `make ${i}`);
        const legal = orders([...costs.keys()]).filter((order) =>
          order.slice(0, order.length - last.length).every((i) => !last.includes(i)),
        );
        const least = Math.min(...legal.map((order) => orderCost(costs, order)));
        const out = asked({ makes: makesOf(costs.length), costs, mustBeLast: names });
        if (typeof out === 'string') throw new Error(out);
        expect([out.cost, out.exact]).toEqual([least, true]);
        expect(new Set(out.order.slice(out.order.length - last.length))).toEqual(new Set(names));
        expect(out.changes.reduce((sum, one) => sum + one.cost, 0)).toBe(least);
      }),
      { numRuns: 40 },
    );
  });

  it('never bounds above the best, nor finds below it, where the quick way is used', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 6 }).chain(table), (costs) => {
        const least = Math.min(...orders([...costs.keys()]).map((order) => orderCost(costs, order)));
        const order = goodOrder(costs);
        expect(new Set(order).size).toBe(costs.length);
        expect(lowerBound(costs)).toBeLessThanOrEqual(least);
        expect(orderCost(costs, order)).toBeGreaterThanOrEqual(least);
      }),
      { numRuns: 60 },
    );
  });

  it('is exact for 15 makes; for 16 and for 100 it states the bound and keeps what must be last', () => {
    const ring = (n: number) =>
      Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_ignored, k) => (k === i + 1 ? 1 : 7 + ((i * 7 + k * 3) % 11))));
    expect(asked({ makes: makesOf(15), costs: ring(15) })).toMatchObject({ exact: true, cost: 14 });
    for (const n of [16, 100]) {
      const out = asked({ makes: makesOf(n), costs: ring(n), mustBeLast: ['make 0'] });
      if (typeof out === 'string') throw new Error(out);
      expect(out.order.at(-1)).toBe('make 0');
      expect(new Set(out.order).size).toBe(n);
      expect(out.lowerBound).toBeLessThanOrEqual(out.cost);
      expect(out.exact).toBe(out.lowerBound === out.cost);
    }
  });

  it('refuses what names no make, tables that are not square, and too many', () => {
    const makes = makesOf(3);
    expect(asked({ makes: [...makes, makes[0]] })).toMatch(/^makes: makes with different names/);
    expect(asked({ makes, mustBeLast: ['other'] })).toMatch(/^mustBeLast.0: /);
    expect(asked({ makes, costs: [{ from: 'make 0', to: 'other', cost: 1 }] })).toMatch(/^costs.0.to: /);
    expect(
      asked({
        makes,
        costs: [
          [0, 1],
          [1, 0],
        ],
      }),
    ).toMatch(/^costs: a square table of 3/);
    for (const bad of [-1, NaN, Infinity, 0.0001]) expect(asked({ makes, cleanDownCost: bad })).toMatch(/^cleanDownCost: a cost/);
    expect(asked({ makes: [] })).toMatch(/^makes: at least one/);
    expect(asked({ makes: makesOf(101) })).toMatch(/^makes: at most 100/);
  });
});
