import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { individualsChart } from './individuals-chart.js';

const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 60 }).filter((list) => new Set(list).size > 1);

describe('individuals-chart', () => {
  it('takes centre and sigma from the values by the moving range', () => {
    // by hand: ranges 2, 2, 2, so sigma is 2/1.128 and the limits 11 ± 6/1.128
    expect(individualsChart.calculate({ values: [10, 12, 10, 12] })).toMatchObject({
      ok: true,
      value: {
        centre: 11,
        meanMovingRange: 2,
        sigma: expect.closeTo(1.773_05, 5),
        limits: { lower: expect.closeTo(5.680_85, 5), upper: expect.closeTo(16.319_15, 5) },
        points: [10, 12, 10, 12],
        signals: [],
      },
    });
  });

  it('uses a known centre and sigma when they are given', () => {
    expect(individualsChart.calculate({ values: [10, 14, 10], centre: 10, sigma: 1 })).toMatchObject({
      ok: true,
      value: {
        centre: 10,
        sigma: 1,
        limits: { lower: 7, upper: 13 },
        signals: [{ rule: 1, index: 1 }],
        movingRange: { limits: { upper: expect.closeTo(3.267 * 1.128, 9) }, signals: [1, 2] },
      },
    });
    expect(individualsChart.calculate({ values: [5], centre: 10, sigma: 1 })).toMatchObject({ ok: false, field: 'values' });
  });

  it('moves with a shift and stretches with a scale', () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -500, max: 500 }), fc.constantFrom(0.5, 2, 8), (list, shift, scale) => {
        const plain = individualsChart.calculate({ values: list });
        const moved = individualsChart.calculate({ values: list.map((value) => value * scale + shift) });
        if (!plain.ok || !moved.ok) throw new Error('both are answered');
        expect(moved.value.centre).toBeCloseTo(plain.value.centre * scale + shift, 8);
        expect(moved.value.sigma).toBeCloseTo(plain.value.sigma * scale, 8);
        expect(moved.value.limits.upper).toBeCloseTo(plain.value.limits.upper * scale + shift, 8);
        expect(moved.value.limits.lower).toBeCloseTo(plain.value.limits.lower * scale + shift, 8);
      }),
    );
  });

  it('does not depend on which end is first', () => {
    fc.assert(
      fc.property(values, (list) => {
        const plain = individualsChart.calculate({ values: list });
        const turned = individualsChart.calculate({ values: [...list].reverse() });
        if (!plain.ok || !turned.ok) throw new Error('both are answered');
        expect(turned.value.centre).toBeCloseTo(plain.value.centre, 9);
        expect(turned.value.meanMovingRange).toBeCloseTo(plain.value.meanMovingRange, 9);
      }),
    );
  });

  it.each([
    [{}, 'values'],
    [{ values: [] }, 'values'],
    [{ values: [1] }, 'values'],
    [{ values: [1, Number.NaN, 2] }, 'values.1'],
    [{ values: [1, Number.NEGATIVE_INFINITY] }, 'values.1'],
    [{ values: [1, '2'] }, 'values.1'],
    [{ values: [1, 1e300] }, 'values.1'],
    [{ values: [5, 5, 5] }, 'values'],
    [{ values: [1, 2], sigma: 0 }, 'sigma'],
    [{ values: [1, 2], rules: [0] }, 'rules.0'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(individualsChart.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million values', () => {
    const million = Array.from({ length: 1_000_000 }, (_, i) => (i % 2 === 0 ? 1 : -1));
    const answer = individualsChart.run({ values: million, rules: [1] });
    if (!answer.ok) throw new Error('answered');
    expect([answer.value.centre, answer.value.meanMovingRange, answer.value.signals.length]).toEqual([0, 2, 0]);
  });
});
