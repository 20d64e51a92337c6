import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { cusumChart } from './cusum-chart.js';

describe('cusum-chart', () => {
  it('signals strictly above h, not at it', () => {
    expect(cusumChart.calculate({ values: [3, 3, 3], target: 0, k: 1, h: 4 })).toMatchObject({
      ok: true,
      value: {
        centre: 0,
        limits: { lower: 0, upper: 4 },
        points: [
          { high: 2, low: 0 },
          { high: 4, low: 0 },
          { high: 6, low: 0 },
        ],
        signals: [{ side: 'high', index: 2 }],
      },
    });
  });

  it('reads k and h in sigmas when sigma is given', () => {
    const plain = cusumChart.calculate({ values: [3, -9, 2], target: 0, k: 1, h: 8 });
    const scaled = cusumChart.calculate({ values: [3, -9, 2], target: 0, k: 0.5, h: 4, sigma: 2 });
    if (!plain.ok || !scaled.ok) throw new Error('both are answered');
    expect(scaled.value.points).toEqual(plain.value.points);
    expect(scaled.value.limits).toEqual(plain.value.limits);
  });

  it('swaps its two sums when the values are mirrored, and moves with the target', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1 }), fc.integer({ min: -50, max: 50 }), (list, shift) => {
        const plain = cusumChart.calculate({ values: list, target: 0, k: 1, h: 5 });
        const mirrored = cusumChart.calculate({ values: list.map((value) => shift - value), target: shift, k: 1, h: 5 });
        if (!plain.ok || !mirrored.ok) throw new Error('both are answered');
        expect(mirrored.value.points).toEqual(plain.value.points.map(({ high, low }) => ({ high: low, low: high })));
        expect(mirrored.value.signals.length).toBe(plain.value.signals.length);
      }),
    );
  });

  it.each([
    [{ values: [], target: 0, k: 1, h: 4 }, 'values'],
    [{ values: [1], k: 1, h: 4 }, 'target'],
    [{ values: [1], target: 0, h: 4 }, 'k'],
    [{ values: [1], target: 0, k: -1, h: 4 }, 'k'],
    [{ values: [1], target: 0, k: 1, h: 0 }, 'h'],
    [{ values: [1], target: 0, k: 1, h: 4, sigma: 0 }, 'sigma'],
    [{ values: [Number.NaN], target: 0, k: 1, h: 4 }, 'values.0'],
    [{ values: [1], target: 0, centre: 2, k: 1, h: 4 }, 'target'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(cusumChart.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million values', () => {
    const answer = cusumChart.run({ values: new Array<number>(1_000_000).fill(1), target: 1, k: 0.5, h: 5 });
    if (!answer.ok) throw new Error('answered');
    expect([answer.value.points.length, answer.value.signals.length]).toEqual([1_000_000, 0]);
  });

  it('a sum on the decision limit is no signal, whatever binary fractions make of it', () => {
    // by hand in decimals: the lower sum reaches 4.0 at the eighth value, and h is 4
    const answer = cusumChart.calculate({ values: [47.4, 49, 48.4, 49.7, 48.4, 49.3, 50, 49.8], target: 50, k: 0.5, h: 4.8 });
    if (!answer.ok) throw new Error(answer.problem);
    expect(answer.value.points.map(({ low }) => Number(low.toFixed(9)))).toEqual([2.1, 2.6, 3.7, 3.5, 4.6, 4.8, 4.3, 4]);
    expect(answer.value.points.some(({ low }) => low > 4.8)).toBe(true); // 4.800000000000004 as added
    expect(answer.value.signals).toEqual([]);
  });
});
