import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { apportion, bakersPercents } from './apportion.js';
import { fraction, over, sumOf, times } from './fraction.js';

const weights = fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 40 }).filter((all) => all.some((w) => w > 0));

describe('apportion', () => {
  it('gives what is left over to the largest remainders, a tie to the heavier, then to the earlier', () => {
    expect(apportion(100, [1, 1, 1].map(fraction))).toEqual([34, 33, 33]);
    expect(apportion(3, [1, 3, 2].map(fraction))).toEqual([0, 2, 1]);
    expect(apportion(0, [1, 2].map(fraction))).toEqual([0, 0]);
    expect(apportion(5, [0, 0].map(fraction))).toEqual([0, 0]);
  });

  it('sums to the whole, stays within one of the exact share, and does not ask for an order of lines', () => {
    fc.assert(
      fc.property(weights, fc.integer({ min: 0, max: 1_000_000_000 }), (plain, whole) => {
        const exact = plain.map(fraction);
        const parts = apportion(whole, exact);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(whole);
        for (const [index, part] of parts.entries()) {
          const share = over(times(fraction(whole), exact[index] ?? fraction(0)), sumOf(exact));
          expect(Math.abs(part - Number(share.num) / Number(share.den))).toBeLessThan(1 + 1e-6);
        }
        expect(apportion(whole, [...exact].reverse()).sort((a, b) => a - b)).toEqual([...parts].sort((a, b) => a - b));
      }),
    );
  });

  it('makes the flours exactly 100 %', () => {
    fc.assert(
      fc.property(weights, weights, (flours, others) => {
        const lines = [
          ...flours.map((w) => ({ weight: fraction(w), flour: true })),
          ...others.map((w) => ({ weight: fraction(w), flour: false })),
        ];
        const found = bakersPercents(lines);
        const thousandths = (found?.percents ?? []).map((p) => Math.round(p * 1000));
        expect(thousandths.slice(0, flours.length).reduce((a, b) => a + b, 0)).toBe(100_000);
        expect(thousandths.reduce((a, b) => a + b, 0)).toBe(Math.round((found?.totalPercent ?? 0) * 1000));
      }),
    );
    expect(bakersPercents([{ weight: fraction(5), flour: false }])).toBeNull();
  });
});
