import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { timeOutside } from './holding-periods.js';
import { holding } from './holding.js';

type Pair = readonly [minutes: number, celsius: number];
const points = (pairs: readonly Pair[]) => pairs.map(([minutes, celsius]) => ({ minutes, celsius }));
const answer = (rule: string, ...pairs: Pair[]) => {
  const outcome = holding.calculate({ profile: points(pairs), rule });
  if (!outcome.ok) throw new Error(`${outcome.field}: ${outcome.acceptable}`);
  return outcome.value;
};
const cold = { above: 8, below: Infinity };

describe('holding at a temperature', () => {
  it.each([
    ['cold-us', 5, 5.1],
    ['hot-us', 57, 56.9],
    ['cold-england', 8, 8.1],
    ['hot-england', 63, 62.9],
  ])('%s: %p passes and %p does not', (rule, good, bad) => {
    expect(answer(rule, [0, good], [60, good])).toMatchObject({
      verdict: 'pass',
      longestMinutesOutside: 0,
      periodsOutside: 0,
      defenceCouldApply: false,
    });
    expect(answer(rule, [0, bad], [60, bad])).toMatchObject({
      verdict: 'fail',
      longestMinutesOutside: 60,
      totalMinutesOutside: 60,
      periodsOutside: 1,
    });
    expect(answer(rule, [0, bad])).toMatchObject({ verdict: 'fail', longestMinutesOutside: 0, periodsOutside: 1 });
  });

  it('measures between readings, and the longest apart from the total', () => {
    expect(answer('cold-england', [0, 7], [10, 9], [20, 7], [40, 7], [60, 9], [80, 9], [100, 7])).toMatchObject({
      longestMinutesOutside: 40,
      totalMinutesOutside: 50,
      periodsOutside: 2,
    });
  });

  it('does not end a period at a touch of the limit that lasts no time', () => {
    expect(answer('cold-england', [0, 9], [60, 8], [120, 9])).toMatchObject({ longestMinutesOutside: 120, periodsOutside: 1 });
    expect(answer('cold-england', [0, 9], [60, 8], [61, 8], [120, 9])).toMatchObject({ longestMinutesOutside: 60, periodsOutside: 2 });
  });
});

describe('the defences in England', () => {
  it.each([
    ['cold-england', 8.1, 240],
    ['hot-england', 62.9, 120],
  ])('%s: one period of less than its limit, and not the limit itself', (rule, out, limit) => {
    const could = (minutes: number) => answer(rule, [0, out], [minutes, out]).defenceCouldApply;
    expect(could(limit - 0.001)).toBe(true);
    expect(could(limit)).toBe(false);
    expect(could(limit + 0.001)).toBe(false);
  });

  it('does not let binary fractions make four hours less than four hours', () => {
    let minutes = 0;
    for (let i = 0; i < 240 * 7; i++) minutes += 1 / 7;
    expect(minutes).not.toBe(240);
    expect(answer('cold-england', [0, 9], [minutes, 9]).defenceCouldApply).toBe(false);
  });

  it('finds exactly four hours where the crossings fall on thirds', () => {
    const out = answer('cold-england', [0, 7], [1, 10], [240, 10], [241, 7]); // above 8 from 1/3 min to 240 2/3 min: 240 1/3 min
    expect(out).toMatchObject({ longestMinutesOutside: expect.closeTo(240 + 1 / 3, 9), defenceCouldApply: false });
    const four = answer('cold-england', [0, 7], [1, 10], [240, 9], [241, 6]); // above 8 from 1/3 min to 240 1/3 min
    expect(four).toMatchObject({ longestMinutesOutside: 240, defenceCouldApply: false });
  });

  it('could apply once only', () => {
    expect(answer('cold-england', [0, 9], [10, 7], [20, 9]).defenceCouldApply).toBe(false);
  });

  it('states its conditions, and there is none in the United States', () => {
    const out = answer('cold-england', [0, 9], [10, 9]);
    expect(out.defenceConditions.join(' ')).toMatch(/service or on display.*once only.*less than four hours/s);
    expect(out.cautions.join(' ')).toMatch(/England only/);
    expect(answer('cold-us', [0, 9], [10, 9])).toMatchObject({ defenceCouldApply: false, defenceConditions: [] });
  });
});

describe('time in place of temperature', () => {
  it('four-hour: 4:00:00 passes, and it starts at 5 or below, or at 57 or above', () => {
    expect(answer('four-hour', [0, 5], [240, 25]).verdict).toBe('pass');
    expect(answer('four-hour', [0, 57], [240, 25]).verdict).toBe('pass');
    expect(answer('four-hour', [0, 5], [240.001, 25]).verdict).toBe('fail');
    expect(answer('four-hour', [0, 5.1], [60, 25]).verdict).toBe('fail');
    expect(answer('four-hour', [0, 56.9], [60, 25]).verdict).toBe('fail');
  });

  it('four-hour: the clock runs from the first reading and is not set back by a rest in the cold', () => {
    expect(answer('four-hour', [30, 4], [60, 20], [90, 4], [270, 4]).verdict).toBe('pass');
    expect(answer('four-hour', [30, 4], [60, 20], [90, 4], [271, 4])).toMatchObject({ verdict: 'fail', minutesSinceStart: 241 });
  });

  it('six-hour: 6:00:00 passes, starts at 5 or below only, and never above 21', () => {
    expect(answer('six-hour', [0, 5], [360, 21]).verdict).toBe('pass');
    expect(answer('six-hour', [0, 5], [360.001, 21]).verdict).toBe('fail');
    expect(answer('six-hour', [0, 57], [60, 20]).verdict).toBe('fail');
    expect(answer('six-hour', [0, 5], [60, 21.1], [120, 20]).verdict).toBe('fail');
  });

  it('four-hour: counts as outside only what is between cold and hot', () => {
    expect(answer('four-hour', [0, 0], [62, 62], [100, 62])).toMatchObject({
      longestMinutesOutside: 52,
      totalMinutesOutside: 52,
      periodsOutside: 1,
    });
  });
});

describe('time outside', () => {
  const step = fc.tuple(
    fc.integer({ min: 0, max: 60 }),
    fc.integer({ min: 0, max: 200 }).map((n) => n / 10),
  );
  const walk = fc.array(step, { minLength: 2, maxLength: 30 }).map((steps) => {
    let minutes = 0;
    return steps.map(([wait, celsius]) => ({ minutes: (minutes += wait), celsius }));
  });

  it('is at most the whole, its longest at most its total, and more where it is warmer', () => {
    fc.assert(
      fc.property(walk, (profile) => {
        const out = timeOutside(profile, cold);
        const whole = (profile.at(-1)?.minutes ?? 0) - (profile[0]?.minutes ?? 0);
        expect(out.totalMinutes).toBeLessThanOrEqual(whole + 1e-6);
        expect(out.longest.toNumber()).toBeLessThanOrEqual(out.totalMinutes + 1e-6);
        expect(out.periods > 0).toBe(profile.some((p) => p.celsius > 8));
        const warmer = timeOutside(
          profile.map((p) => ({ ...p, celsius: p.celsius + 0.5 })),
          cold,
        );
        expect(warmer.totalMinutes).toBeGreaterThanOrEqual(out.totalMinutes - 1e-6);
      }),
    );
  });

  it('is the same with a reading added in the middle of each line, and seen from the other side', () => {
    fc.assert(
      fc.property(walk, (profile) => {
        const out = timeOutside(profile, cold);
        const split = profile.flatMap((p, i) => {
          const next = profile[i + 1];
          return next === undefined ? [p] : [p, { minutes: (p.minutes + next.minutes) / 2, celsius: (p.celsius + next.celsius) / 2 }];
        });
        const again = timeOutside(split, cold);
        expect(again.longest.toNumber()).toBeCloseTo(out.longest.toNumber(), 6);
        expect(again.totalMinutes).toBeCloseTo(out.totalMinutes, 6);
        const mirrored = timeOutside(
          profile.map((p) => ({ ...p, celsius: -p.celsius })),
          { above: -Infinity, below: -8 },
        );
        expect(mirrored).toEqual(out);
      }),
    );
  });

  it('handles a million readings that cross the limit at every one', () => {
    const profile = Array.from({ length: 1_000_000 }, (_, i) => ({ minutes: i / 10, celsius: i % 2 === 0 ? 7 : 9 }));
    const out = holding.calculate({ profile, rule: 'cold-england' });
    expect(out).toMatchObject({
      ok: true,
      value: { verdict: 'fail', periodsOutside: 500_000, totalMinutesOutside: expect.closeTo(49_999.95, 3) },
    });
  });

  it.each([
    ['rule', { rule: 'cold' }],
    ['rule', { rule: undefined }],
    ['profile', { profile: [] }],
    ['profile', { profile: undefined }],
    [
      'profile.1.minutes',
      {
        profile: points([
          [1, 5],
          [0.5, 5],
        ]),
      },
    ],
  ])('refuses a bad %s', (field, bad) => {
    const out = holding.calculate({ profile: points([[0, 5]]), rule: 'cold-us', ...bad });
    expect(out).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/ /) });
  });
});
