import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { frictionCauses, frictionOf } from './friction.js';

const mix = (minutesFast: number | null, minutesSlow: number | null = null, sizePercent: number | null = null) => ({
  minutesFast,
  minutesSlow,
  sizePercent,
});
const planned = { minutesFast: 6, minutesSlow: 4 };

describe('the friction factor', () => {
  it('is three times the dough less room, flour and water: 3 × 28.5 − (24 + 21 + 19) = 21.5', () => {
    expect(frictionOf({ dough: 28_500, room: 24_000, flour: 21_000, water: 19_000 })).toBe(21_500);
    expect(frictionOf({ dough: 28_500, room: null, flour: 21_000, water: 19_000 })).toBeNull();
  });

  it('gives back the dough temperature that it was worked out from', () => {
    const t = fc.integer({ min: -20_000, max: 60_000 });
    fc.assert(
      fc.property(
        t,
        t,
        t,
        t,
        (dough, room, flour, water) => ((frictionOf({ dough, room, flour, water }) ?? 0) + room + flour + water) / 3 === dough,
      ),
    );
  });

  it.each<[string, number | null, number | null, ReturnType<typeof mix>, readonly string[]]>([
    ['nine fast minutes instead of six', 21_500, 14_000, mix(9), ['fast-minutes']],
    ['more at both speeds, a bigger make', 21_500, 14_000, mix(9, 5, 150), ['fast-minutes', 'slow-minutes', 'size-percent']],
    ['fewer minutes do not warm', 21_500, 14_000, mix(5), []],
    ['fewer minutes leave it cold', 8_000, 14_000, mix(3), ['fast-minutes']],
    ['exactly 3 °C off is nothing to ask about', 17_000, 14_000, mix(9), []],
    ['just over', 17_001, 14_000, mix(9), ['fast-minutes']],
    ['a quarter more is the same size', 21_500, 14_000, mix(null, null, 125), []],
    ['nobody knows what to expect', 21_500, null, mix(9), []],
    ['nobody took a temperature', null, 14_000, mix(9), []],
  ])('%s', (_case, factor, expected, done, causes) => {
    expect(frictionCauses(factor, expected, done, planned).map((c) => c.what)).toEqual(causes);
  });
});
