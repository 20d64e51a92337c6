import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { lethality, lethalMinutes, lethalMinutesInRange, logReductionCap } from './lethality.js';
import { profile } from '../../../../test/support/profiles.js';

const ramp = profile([0, 60], [10, 80]);
const bun = { referenceCelsius: 58, zCelsius: 6.58, dMinutes: 7.61, measuredFromCelsius: 55, measuredToCelsius: 61 };
const answer = (raw: unknown) => {
  const outcome = lethality.calculate(raw);
  if (!outcome.ok) throw new Error(`${outcome.field}: ${outcome.acceptable}`);
  return outcome.value;
};

const temperature = fc.double({ min: 0, max: 120, noNaN: true });
/** Whole milliseconds, as a clock gives them: among times near the smallest double no relative bound can hold. */
const upToHalfAnHour = fc.integer({ min: 0, max: 30 * 60_000 }).map((milliseconds) => milliseconds / 60_000);
const anyProfile = fc
  .array(fc.record({ minutes: upToHalfAnHour, celsius: temperature }), { minLength: 2, maxLength: 20 })
  .map((steps) =>
    steps.map((step, i) => ({ celsius: step.celsius, minutes: steps.slice(0, i + 1).reduce((sum, s) => sum + s.minutes, 0) })),
  );

describe('lethal minutes', () => {
  it('counts a hold at the reference minute for minute', () => {
    expect(lethalMinutes(profile([3, 70], [5, 70]), 70, 7.5)).toBe(2);
  });

  it('keeps its figures where a segment is almost level', () => {
    // Mean of 10^(x/z) over a rise h is 1 + h·ln10/(2z) + …: the plain difference of powers divided by the slope loses every figure here.
    const rise = 1e-12;
    const minutes = lethalMinutes(profile([0, 70], [1, 70 + rise]), 70, 7.5);
    expect(Math.abs(minutes - 1)).toBeLessThan(1e-12);
  });

  it('does not overflow where a cold start meets a hot end', () => {
    expect(lethalMinutes(profile([0, -90], [1, 70]), 70, 0.2)).toBeGreaterThan(0);
  });

  it('lets two temperatures at one moment be a step that takes no time', () => {
    const step = profile([0, 20], [5, 20], [5, 70], [7, 70]);
    expect(lethalMinutes(step, 70, 7.5)).toBeCloseTo(2 + 5 * 10 ** (-50 / 7.5), 12);
  });

  it('is the same when a segment is split anywhere', () => {
    const [span, share] = [fc.double({ min: 0.01, max: 100, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })];
    fc.assert(
      fc.property(temperature, temperature, span, share, (from, to, span, share) => {
        const whole = profile([0, from], [span, to]);
        const split = [whole[0], { minutes: span * share, celsius: from + (to - from) * share }, whole[1]].filter((p) => p !== undefined);
        const [one, two] = [lethalMinutes(whole, 70, 7.5), lethalMinutes(split, 70, 7.5)];
        expect(Math.abs(one - two)).toBeLessThanOrEqual(1e-9 * one);
      }),
    );
  });

  it('is the same forwards and backwards in time, and grows with every degree', () => {
    fc.assert(
      fc.property(anyProfile, fc.double({ min: 0.1, max: 10, noNaN: true }), (points, warmer) => {
        const end = points.at(-1)?.minutes ?? 0;
        const back = points.map((p) => ({ minutes: end - p.minutes, celsius: p.celsius })).reverse();
        const minutes = lethalMinutes(points, 70, 7.5);
        expect(lethalMinutes(back, 70, 7.5)).toBeCloseTo(minutes, 6 - Math.ceil(Math.log10(minutes + 1)));
        const shifted = lethalMinutes(
          points.map((p) => ({ ...p, celsius: p.celsius + warmer })),
          70,
          7.5,
        );
        expect(shifted).toBeGreaterThanOrEqual(minutes);
      }),
    );
  });

  it('never exceeds the trapezoid of the rates, which overstates a convex curve', () => {
    fc.assert(
      fc.property(anyProfile, (points) => {
        const rate = (celsius: number) => 10 ** ((celsius - 70) / 7.5);
        const trapezoid = points.slice(1).reduce((sum, p, i) => {
          const before = points[i] ?? p;
          return sum + ((p.minutes - before.minutes) * (rate(p.celsius) + rate(before.celsius))) / 2;
        }, 0);
        expect(lethalMinutes(points, 70, 7.5)).toBeLessThanOrEqual(trapezoid * (1 + 1e-9));
      }),
    );
  });

  it('counts inside a range what it counts outside it', () => {
    fc.assert(
      fc.property(anyProfile, (points) => {
        const all = lethalMinutesInRange(points, 70, 7.5, -90, 300);
        const total = lethalMinutes(points, 70, 7.5);
        expect(Math.abs(all.equivalentMinutes - total)).toBeLessThanOrEqual(1e-9 * total);
        expect(lethalMinutesInRange(points, 70, 7.5, 55, 61).equivalentMinutes).toBeLessThanOrEqual(total * (1 + 1e-9));
      }),
    );
  });
});

describe('lethality', () => {
  it('gives a log reduction inside the measured range, ends included', () => {
    const held = profile([0, 55], [0, 58], [15.22, 58], [15.22, 61]);
    const hold = answer({ ...bun, profile: held });
    expect(hold).toMatchObject({ outsideMeasuredRange: false, reason: null, logReductionCapped: false });
    expect(hold.logReduction).toBeCloseTo(2, 9);
  });

  it('gives no log reduction outside the measured range, above or below it, and says why', () => {
    for (const celsius of [70, 54.9, 61.1]) {
      const out = answer({
        ...bun,
        profile: [
          { minutes: 0, celsius: 58 },
          { minutes: 2, celsius },
        ],
      });
      expect(out).toMatchObject({ outsideMeasuredRange: true, logReduction: null });
      expect(out.reason).toMatch(/outside the measured range/i);
      expect(out.explanation).not.toMatch(/that is .* log/);
    }
  });

  it('counts the time inside the measured range apart, as the part that was measured', () => {
    const held = profile([0, 20], [0, 58], [7.61, 58], [7.61, 95]);
    const out = answer({ ...bun, profile: held });
    expect(out.logReductionWithinRange).toBeCloseTo(1, 9);
  });

  it('says that it cannot tell where the measured range is not given, and gives no log without D', () => {
    expect(answer({ profile: ramp, referenceCelsius: 70, zCelsius: 7.5 })).toMatchObject({
      outsideMeasuredRange: null,
      logReduction: null,
    });
    const out = answer({ profile: ramp, referenceCelsius: 70, zCelsius: 7.5, dMinutes: 10 });
    expect(out.logReduction).toBeCloseTo(3.5011623, 6);
    expect(out.cautions.join(' ')).toMatch(/nobody can tell/);
  });

  it('prints nothing above the cap', () => {
    const out = answer({ profile: ramp, referenceCelsius: 70, zCelsius: 7.5, dMinutes: 0.1 });
    expect(out).toMatchObject({ logReduction: logReductionCap, logReductionCapped: true });
    expect(out.explanation).toContain(`more than ${logReductionCap} log`);
  });

  it('marks readings that no food shows', () => {
    const hot = answer({
      profile: profile([0, 160], [1, 165]),
      referenceCelsius: 70,
      zCelsius: 7.5,
    });
    expect(hot.cautions.join(' ')).toMatch(/not °F/);
  });

  it.each([
    [{ measuredToCelsius: 85 }, false, 7.002324608],
    [{ measuredFromCelsius: 55 }, false, 7.002324608],
    [{ measuredToCelsius: 79 }, true, null],
    [{ measuredFromCelsius: 61 }, true, null],
  ])('takes one end of the measured range alone: %j', (range, outsideMeasuredRange, log) => {
    const outcome = lethality.calculate({
      profile: profile([0, 60], [10, 80]),
      referenceCelsius: 70,
      zCelsius: 7.5,
      dMinutes: 5,
      ...range,
    });
    if (!outcome.ok) throw new Error(outcome.problem);
    expect(outcome.value.outsideMeasuredRange).toBe(outsideMeasuredRange);
    if (log === null)
      expect([outcome.value.logReduction, outcome.value.reason]).toEqual([
        null,
        expect.stringMatching(/^Outside the measured range: .* measured (up to 79|from 61) °C\.$/),
      ]);
    else expect(outcome.value.logReduction).toBeCloseTo(log, 8); // 35.011623 min by the exact integral, over D = 5 min
  });

  it.each([
    ['profile', { profile: [] }],
    ['profile', { profile: profile([0, 60]) }],
    ['profile', { profile: 'hot' }],
    [
      'profile.1.minutes',
      {
        profile: profile([5, 60], [4, 61]),
      },
    ],
    [
      'profile.0.minutes',
      {
        profile: profile([-1, 60], [4, 61]),
      },
    ],
    [
      'profile.1.celsius',
      {
        profile: profile([0, 60], [4, NaN]),
      },
    ],
    [
      'profile.1.celsius',
      {
        profile: profile([0, 60], [4, Infinity]),
      },
    ],
    [
      'profile.1.celsius',
      {
        profile: [
          { minutes: 0, celsius: 60 },
          { minutes: 4, fahrenheit: 140 },
        ],
      },
    ],
    [
      'profile.1',
      {
        profile: [
          { minutes: 0, celsius: 60 },
          { minutes: 4, seconds: 30, celsius: 61 },
        ],
      },
    ],
    ['profile.0', { profile: [null, { minutes: 4, celsius: 61 }] }],
    ['zCelsius', { zCelsius: 0 }],
    ['zCelsius', { zCelsius: -7.5 }],
    ['zCelsius', { zCelsius: NaN }],
    ['zCelsius', { zCelsius: 0.01 }],
    ['referenceCelsius', { referenceCelsius: Infinity }],
    ['dMinutes', { dMinutes: 0 }],
    ['measuredToCelsius', { measuredFromCelsius: 61, measuredToCelsius: 55 }],
  ])('refuses a bad %s and says what is acceptable', (field, bad) => {
    const outcome = lethality.calculate({ profile: ramp, referenceCelsius: 70, zCelsius: 7.5, ...bad });
    expect(outcome).toMatchObject({ ok: false, field });
    expect(outcome.ok ? '' : outcome.acceptable).toMatch(/\w+ \w+/);
  });

  it('refuses fields it does not know, so that a misspelt D is not ignored', () => {
    const outcome = lethality.calculate({ profile: ramp, referenceCelsius: 70, zCelsius: 7.5, dMinute: 2 });
    expect(outcome).toMatchObject({ ok: false, field: 'dMinute' });
  });

  it('takes a million points and refuses one more, and stops at the first of a million faults', () => {
    const points = Array.from({ length: 1_000_000 }, (_, i) => ({ minutes: i / 100, celsius: 70 }));
    const whole = answer({ profile: points, referenceCelsius: 70, zCelsius: 7.5 });
    expect(whole.equivalentMinutes).toBeCloseTo(9999.99, 5);
    expect(whole.inputs).toMatchObject({ profile: { readings: 1_000_000, hottestCelsius: 70 } });
    const more = lethality.calculate({ profile: [...points, { minutes: 20_000, celsius: 70 }], referenceCelsius: 70, zCelsius: 7.5 });
    expect(more).toMatchObject({ ok: false, field: 'profile', acceptable: expect.stringContaining('1000000') });
    const wrong = lethality.calculate({ profile: points.map(() => ({ minutes: '0' })), referenceCelsius: 70, zCelsius: 7.5 });
    expect(wrong).toMatchObject({ ok: false, field: 'profile.0.minutes' });
  });
});
