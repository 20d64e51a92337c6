import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { ewmaChart } from './ewma-chart.js';

describe('ewma-chart', () => {
  it('smooths from the centre, with limits that widen to the asymptote', () => {
    // by hand with λ 0.5: 4 → 2, then 0 → 1; variance factors (λ/(2−λ))(1 − 0.25^i) = 1/4 and 5/16
    expect(ewmaChart.calculate({ values: [4, 0], lambda: 0.5, centre: 0, sigma: 1 })).toMatchObject({
      ok: true,
      value: {
        limits: { lower: expect.closeTo(-Math.sqrt(3), 9), upper: expect.closeTo(Math.sqrt(3), 9) },
        points: [
          { ewma: 2, lower: expect.closeTo(-1.5, 9), upper: expect.closeTo(1.5, 9) },
          { ewma: 1, upper: expect.closeTo(3 * Math.sqrt(5 / 16), 9) },
        ],
        signals: [{ side: 'high', index: 0 }],
      },
    });
  });

  it('is the chart of single values when lambda is 1', () => {
    const list = [1, -2, 3.5, -3.5, 0];
    const plain = ewmaChart.calculate({ values: list, lambda: 1, centre: 0, sigma: 1 });
    expect(plain).toMatchObject({
      ok: true,
      value: {
        limits: { lower: -3, upper: 3 },
        points: list.map((ewma) => ({ ewma, lower: -3, upper: 3 })),
        signals: [
          { side: 'high', index: 2 },
          { side: 'low', index: 3 },
        ],
      },
    });
  });

  it('keeps its limits to every digit when lambda is very small', () => {
    // for a small λ the variance factor at the first point is λ²
    expect(ewmaChart.calculate({ values: [0], lambda: 1e-12, centre: 0, sigma: 1 })).toMatchObject({
      ok: true,
      value: { points: [{ upper: expect.closeTo(3e-12, 20) }] },
    });
  });

  it('does not signal a point exactly on its limit', () => {
    expect(ewmaChart.calculate({ values: [3, -3], lambda: 1, centre: 0, sigma: 1 })).toMatchObject({ ok: true, value: { signals: [] } });
  });

  it('keeps every point between the least and the greatest of the centre and the values', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1 }), fc.constantFrom(0.1, 0.3, 0.5, 1), (list, lambda) => {
        const answer = ewmaChart.calculate({ values: list, lambda, centre: 0, sigma: 1 });
        if (!answer.ok) throw new Error('answered');
        const [least, most] = [Math.min(0, ...list) - 1e-9, Math.max(0, ...list) + 1e-9];
        for (const { ewma } of answer.value.points) expect(ewma >= least && ewma <= most).toBe(true);
      }),
    );
  });

  it('estimates what is not given, says so, and takes target for centre', () => {
    expect(ewmaChart.calculate({ values: [10, 12, 10, 12] })).toMatchObject({
      ok: true,
      value: {
        centre: 11,
        sigma: expect.closeTo(2 / 1.128, 9),
        cautions: expect.arrayContaining([expect.stringContaining('hides a shift')]),
      },
    });
    expect(ewmaChart.calculate({ values: [10], target: 9, sigma: 1 })).toMatchObject({
      ok: true,
      value: { centre: 9, points: [{ ewma: expect.closeTo(9.3, 12) }] },
    });
  });

  it.each([
    [{ values: [], lambda: 0.3, centre: 0, sigma: 1 }, 'values'],
    [{ values: [1], lambda: 0, centre: 0, sigma: 1 }, 'lambda'],
    [{ values: [1], lambda: 1.0001, centre: 0, sigma: 1 }, 'lambda'],
    [{ values: [1], lambda: Number.NaN, centre: 0, sigma: 1 }, 'lambda'],
    [{ values: [1], lambda: 0.3, centre: 0, sigma: 0 }, 'sigma'],
    [{ values: [1], lambda: 0.3, centre: 0 }, 'sigma'],
    [{ values: [1], centre: 0, target: 1, sigma: 1 }, 'target'],
    [{ values: [1, Number.NaN], lambda: 0.3, centre: 0, sigma: 1 }, 'values.1'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(ewmaChart.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million values', () => {
    const answer = ewmaChart.run({ values: new Array<number>(1_000_000).fill(1), centre: 1, sigma: 1 });
    if (!answer.ok) throw new Error('answered');
    expect([answer.value.points.length, answer.value.signals.length]).toEqual([1_000_000, 0]);
  });
});
