import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import type { RuleNumber } from './nelson.js';
import { xbarRChart } from './xbar-r-chart.js';
import { xbarSChart } from './xbar-s-chart.js';

type Answer = { readonly ok: true; readonly value: { centre: number; limits: { lower: number; upper: number } } } | { readonly ok: false };
/** What both charts answer alike, so that one set of checks serves both. */
interface Chart {
  readonly name: string;
  calculate(raw: unknown): Answer;
  run(input: { subgroups: number[][]; rules?: RuleNumber[] | undefined }): Answer;
}
const charts: Chart[] = [xbarRChart, xbarSChart];

describe('xbar-r-chart', () => {
  it('sets limits by A2, D3 and D4', () => {
    // by hand: averages 11 and 13, ranges 2 and 4
    expect(
      xbarRChart.calculate({
        subgroups: [
          [10, 12],
          [11, 15],
        ],
      }),
    ).toMatchObject({
      ok: true,
      value: {
        centre: 12,
        points: [11, 13],
        limits: { lower: expect.closeTo(12 - 1.88 * 3, 9), upper: expect.closeTo(12 + 1.88 * 3, 9) },
        range: { centre: 3, limits: { lower: 0, upper: expect.closeTo(3.267 * 3, 9) }, points: [2, 4], signals: [] },
        sigma: expect.closeTo(3 / 1.128, 9),
      },
    });
  });

  it('signals an average beyond its limits and a range above its own', () => {
    const calm = Array.from({ length: 12 }, () => [10, 11]);
    const { signals, range } = answered(xbarRChart.calculate({ subgroups: [...calm, [20, 21], [10, 20]] }));
    expect(signals).toContainEqual({ rule: 1, index: 12 });
    expect(range.signals).toEqual([13]);
  });
});

describe('xbar-s-chart', () => {
  it('sets limits by A3, B3 and B4', () => {
    // standard deviation of two values is their distance over √2
    const s = (2 / Math.SQRT2 + 4 / Math.SQRT2) / 2;
    const c4 = Math.sqrt(2 / Math.PI);
    const { centre, limits, sigma, standardDeviation } = answered(
      xbarSChart.calculate({
        subgroups: [
          [10, 12],
          [11, 15],
        ],
      }),
    );
    expect(centre).toBe(12);
    expect(limits.upper).toBeCloseTo(12 + (3 * s) / (c4 * Math.SQRT2), 9);
    expect(sigma).toBeCloseTo(s / c4, 9);
    expect(standardDeviation.limits.lower).toBe(0);
    expect(standardDeviation.limits.upper).toBeCloseTo(s * (1 + (3 * Math.sqrt(1 - c4 ** 2)) / c4), 9);
  });
});

describe.each(charts)('$name', (chart) => {
  it('does not depend on the order within subgroups, and moves with a shift', () => {
    const group = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 4, maxLength: 4 });
    const groups = fc.array(group, { minLength: 2, maxLength: 12 }).filter((list) => list.some((values) => new Set(values).size > 1));
    fc.assert(
      fc.property(groups, fc.integer({ min: -50, max: 50 }), (list, shift) => {
        const plain = answered(chart.calculate({ subgroups: list }));
        const turned = answered(chart.calculate({ subgroups: list.map((values) => [...values].reverse().map((value) => value + shift)) }));
        expect(turned.centre).toBeCloseTo(plain.centre + shift, 8);
        expect(turned.limits.upper - turned.limits.lower).toBeCloseTo(plain.limits.upper - plain.limits.lower, 8);
      }),
    );
  });

  it.each([
    [{ subgroups: [] }, 'subgroups'],
    [{ subgroups: [[1, 2]] }, 'subgroups'],
    [{ subgroups: [[1], [2]] }, 'subgroups.0'],
    [
      {
        subgroups: [
          [1, 2],
          [1, 2, 3],
        ],
      },
      'subgroups.1',
    ],
    [
      {
        subgroups: [
          [1, 2],
          [1, Number.NaN],
        ],
      },
      'subgroups.1.1',
    ],
    [
      {
        subgroups: [
          [1, 1],
          [2, 2],
        ],
      },
      'subgroups',
    ],
    [{ subgroups: [new Array(26).fill(1), new Array(26).fill(2)] }, 'subgroups.0'],
    [{ values: [1, 2] }, 'subgroups'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(chart.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million values in subgroups and refuses more', () => {
    const groups = Array.from({ length: 200_000 }, (_, i) => [i % 3, 1, 2, 3, 4]);
    expect(answered(chart.run({ subgroups: groups, rules: [1] })).centre).toBeCloseTo(2.2, 5);
    expect(chart.run({ subgroups: [...groups, [1, 2, 3, 4, 5]] })).toMatchObject({ ok: false, field: 'subgroups' });
  });
});

function answered<T>(outcome: { readonly ok: true; readonly value: T } | { readonly ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}
