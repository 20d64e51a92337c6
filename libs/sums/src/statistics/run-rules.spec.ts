import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { everyRule, nelsonSignals, type RuleNumber } from './nelson.js';
import { runRules } from './run-rules.js';

/** Places at which a rule signals, with centre 0 and sigma 1. */
const places = (rule: RuleNumber, values: number[]) => nelsonSignals(values, 0, 1, [rule]).map(({ index }) => index);
const many = (n: number, make: (i: number) => number) => Array.from({ length: n }, (_, i) => make(i));

// Each pattern as Nelson 1984 states it, one point short of it, and with a point exactly on the line.
describe('the eight tests at their boundaries (Nelson 1984)', () => {
  it('1: beyond 3 sigma, not on it', () => {
    expect(places(1, [0, 3.001, 0, -3.001])).toEqual([1, 3]);
    expect(places(1, [0, 3, -3])).toEqual([]);
  });

  it('2: 9 on one side, not 8, and a point on the centre breaks it', () => {
    expect(
      places(
        2,
        many(9, () => 0.5),
      ),
    ).toEqual([8]);
    expect(
      places(
        2,
        many(9, () => -0.5),
      ),
    ).toEqual([8]);
    expect(
      places(
        2,
        many(10, () => 0.5),
      ),
    ).toEqual([8, 9]);
    expect(
      places(
        2,
        many(8, () => 0.5),
      ),
    ).toEqual([]);
    expect(places(2, [...many(8, () => 0.5), -0.5, 0.5])).toEqual([]);
    expect(places(2, [...many(8, () => 0.5), 0, 0.5])).toEqual([]);
  });

  it('3: 6 rising or falling, not 5, and equals break it', () => {
    expect(
      places(
        3,
        many(6, (i) => i / 10),
      ),
    ).toEqual([5]);
    expect(
      places(
        3,
        many(6, (i) => -i / 10),
      ),
    ).toEqual([5]);
    expect(
      places(
        3,
        many(5, (i) => i / 10),
      ),
    ).toEqual([]);
    expect(places(3, [0.1, 0.2, 0.3, 0.3, 0.4, 0.5])).toEqual([]);
    expect(places(3, [0.9, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6])).toEqual([6]);
  });

  it('4: 14 alternating, not 13, and equals break it', () => {
    expect(
      places(
        4,
        many(14, (i) => (i % 2 === 0 ? 0.1 : -0.1)),
      ),
    ).toEqual([13]);
    expect(
      places(
        4,
        many(13, (i) => (i % 2 === 0 ? 0.1 : -0.1)),
      ),
    ).toEqual([]);
    expect(
      places(
        4,
        many(20, () => 0.1),
      ),
    ).toEqual([]);
    expect(
      places(
        4,
        many(14, (i) => (i === 6 ? -0.1 : i % 2 === 0 ? 0.1 : -0.1)),
      ),
    ).toEqual([]);
  });

  it('5: 2 of 3 beyond 2 sigma on the same side', () => {
    expect(places(5, [2.1, 0, 2.1])).toEqual([2]);
    expect(places(5, [0, 2.1, 2.1])).toEqual([2]);
    expect(places(5, [2.1, 0, 0, 2.1])).toEqual([]);
    expect(places(5, [2.1, 0, -2.1])).toEqual([]);
    expect(places(5, [2, 0, 2])).toEqual([]);
    expect(places(5, [-2.1, 0, -2.1])).toEqual([2]);
  });

  it('6: 4 of 5 beyond 1 sigma on the same side', () => {
    expect(places(6, [1.1, 1.1, 0, 1.1, 1.1])).toEqual([4]);
    expect(places(6, [-1.1, -1.1, -1.1, 0, -1.1])).toEqual([4]);
    expect(places(6, [1.1, 1.1, 0, 0, 1.1, 1.1])).toEqual([]);
    expect(places(6, [1, 1, 0, 1, 1])).toEqual([]);
    expect(places(6, [1.1, 1.1, -1.1, 0, 1.1])).toEqual([]);
  });

  it('7: 15 within 1 sigma, not 14, and a point on the line breaks it', () => {
    expect(
      places(
        7,
        many(15, (i) => (i % 2 === 0 ? 0.9 : -0.9)),
      ),
    ).toEqual([14]);
    expect(
      places(
        7,
        many(14, () => 0.9),
      ),
    ).toEqual([]);
    expect(
      places(
        7,
        many(15, (i) => (i === 7 ? 1 : 0.5)),
      ),
    ).toEqual([]);
  });

  it('8: 8 outside 1 sigma on either side, not 7, and a point on the line breaks it', () => {
    expect(
      places(
        8,
        many(8, (i) => (i % 2 === 0 ? 1.1 : -1.1)),
      ),
    ).toEqual([7]);
    expect(
      places(
        8,
        many(7, () => 1.1),
      ),
    ).toEqual([]);
    expect(
      places(
        8,
        many(8, (i) => (i === 3 ? 1 : 1.1)),
      ),
    ).toEqual([]);
  });

  it('takes a point within rounding of a line as on it', () => {
    expect(10.3 - 10).toBeGreaterThan(3 * 0.1); // in binary arithmetic, though both are 0.3
    expect(nelsonSignals([10.3, 9.7], 10, 0.1, [1])).toEqual([]);
    expect(nelsonSignals([10.3001], 10, 0.1, [1])).toEqual([{ rule: 1, index: 0 }]);
  });
});

/** The same tests written window by window from their wording: slow, plain, and sharing nothing with the one pass. */
function byWindows(values: readonly number[]): string[] {
  const found: string[] = [];
  const every = (window: readonly number[], n: number, test: (value: number) => boolean) =>
    window.length >= n && window.slice(-n).every(test);
  const steps = values.map((value, i) => (i === 0 ? 0 : Math.sign(value - (values[i - 1] ?? 0))));
  for (const [i, x] of values.entries()) {
    const seen = values.slice(0, i + 1);
    const few = (n: number, k: number, least: number) =>
      [1, -1].some((side) => x * side > k && seen.slice(-n).filter((value) => value * side > k).length >= least);
    const trend = steps.slice(1, i + 1);
    if (Math.abs(x) > 3) found.push(`1@${i}`);
    if (every(seen, 9, (v) => v > 0) || every(seen, 9, (v) => v < 0)) found.push(`2@${i}`);
    if (every(trend, 5, (s) => s > 0) || every(trend, 5, (s) => s < 0)) found.push(`3@${i}`);
    const last = trend.slice(-13);
    if (last.length === 13 && last.every((s, j) => s !== 0 && (j === 0 || s === -(last[j - 1] ?? 0)))) found.push(`4@${i}`);
    if (few(3, 2, 2)) found.push(`5@${i}`);
    if (few(5, 1, 4)) found.push(`6@${i}`);
    if (every(seen, 15, (v) => Math.abs(v) < 1)) found.push(`7@${i}`);
    if (every(seen, 8, (v) => Math.abs(v) > 1)) found.push(`8@${i}`);
  }
  return found;
}

// Quarters are exact in binary, so points often fall exactly on the lines; the runs make long patterns common.
const runOf = (values: fc.Arbitrary<number>) => fc.array(values, { minLength: 1, maxLength: 20 });
const quarters = (from: number, to: number) => fc.integer({ min: from, max: to }).map((q) => q / 4);
const zigzag = fc.integer({ min: 2, max: 18 }).map((n) => many(n, (i) => (i % 2 === 0 ? 0.25 : -0.25)));
const ramp = fc.integer({ min: 2, max: 9 }).map((n) => many(n, (i) => (i - 4) / 4));
const wander = fc
  .array(
    fc.oneof(
      runOf(quarters(-14, 14)),
      runOf(quarters(1, 3)),
      runOf(quarters(5, 9)),
      runOf(quarters(-9, -4)),
      runOf(quarters(-3, 3)),
      zigzag,
      ramp,
    ),
    { maxLength: 6 },
  )
  .map((parts) => parts.flat());

describe('properties of the tests', () => {
  it('agree with a window-by-window reading of the rules', () => {
    const reached = new Set<string>();
    fc.assert(
      fc.property(wander, (values) => {
        const found = nelsonSignals(values, 0, 1, everyRule).map(({ rule, index }) => `${rule}@${index}`);
        for (const one of found) reached.add(one.charAt(0));
        expect(found).toEqual(byWindows(values));
      }),
      { numRuns: 1000, seed: 20260 },
    );
    expect([...reached].sort()).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
  });

  it('do not change when every value, the centre and sigma are shifted, scaled or turned upside down', () => {
    fc.assert(
      fc.property(
        wander,
        fc.integer({ min: -64, max: 64 }),
        fc.integer({ min: 0, max: 6 }),
        fc.boolean(),
        (values, shift, doublings, flip) => {
          const scale = 2 ** doublings * (flip ? -1 : 1);
          const moved = values.map((value) => value * scale + shift);
          expect(nelsonSignals(moved, shift, Math.abs(scale), everyRule)).toEqual(nelsonSignals(values, 0, 1, everyRule));
        },
      ),
    );
  });

  it('of one rule are those of all rules with the others left out', () => {
    fc.assert(
      fc.property(wander, fc.constantFrom(...everyRule), (values, rule) => {
        expect(nelsonSignals(values, 0, 1, [rule])).toEqual(nelsonSignals(values, 0, 1, everyRule).filter((one) => one.rule === rule));
      }),
    );
  });
});

describe('run-rules', () => {
  it('answers with rule and index, counts, and its inputs', () => {
    expect(runRules.calculate({ values: [10, 13.5, 10], centre: 10, sigma: 1 })).toMatchObject({
      ok: true,
      value: {
        signals: [{ rule: 1, index: 1 }],
        rules: expect.arrayContaining([{ rule: 1, meaning: 'one point beyond 3 sigma', count: 1 }]),
        inputs: { centre: 10, sigma: 1 },
      },
    });
  });

  it.each([
    [{ values: [], centre: 0, sigma: 1 }, 'values'],
    [{ values: [1, Number.NaN], centre: 0, sigma: 1 }, 'values.1'],
    [{ values: [1, Number.POSITIVE_INFINITY], centre: 0, sigma: 1 }, 'values.1'],
    [{ values: [1], centre: 0, sigma: 0 }, 'sigma'],
    [{ values: [1], centre: 0, sigma: -1 }, 'sigma'],
    [{ values: [1], sigma: 1 }, 'centre'],
    [{ values: [1], centre: 0, sigma: 1, rules: [9] }, 'rules.0'],
    [{ values: [1], centre: 0, sigma: 1, rules: [] }, 'rules'],
    [{ values: [1], centre: '10 °C', sigma: 1 }, 'centre'],
  ])('refuses %j, naming the field', (raw, field) => {
    expect(runRules.calculate(raw)).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/\w/) });
  });

  it('takes a million values and refuses one more', () => {
    const million = new Array<number>(1_000_000).fill(0);
    million[999_999] = 4;
    const answer = runRules.calculate({ values: million, centre: 0, sigma: 1, rules: [1] });
    if (!answer.ok) throw new Error('answered');
    expect(answer.value.signals).toEqual([{ rule: 1, index: 999_999 }]);
    expect(runRules.calculate({ values: [...million, 0], centre: 0, sigma: 1 })).toMatchObject({
      ok: false,
      field: 'values',
      acceptable: 'at least 1 value, at most 1,000,000',
    });
  });
});
