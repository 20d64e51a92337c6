import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { recentFriction, type RecentMix } from './recent-friction.js';

const mix = (frictionMilli: number, day: number, of: Partial<RecentMix> = {}): RecentMix => ({
  frictionMilli,
  at: `2026-11-${String(day).padStart(2, '0')}T02:35:00.000Z`,
  minutesSlow: 4,
  minutesFast: 6,
  scalePpm: 1_000_000,
  ...of,
});
const planned = { minutesSlow: 4, minutesFast: 6, sizePpm: 1_000_000 };

describe('recentFriction', () => {
  it('is the middle one of those that compare, so that one slip of a thermometer moves it little', () => {
    expect(recentFriction([mix(14_000, 20), mix(13_600, 21), mix(60_000, 22)], planned)).toMatchObject({
      milli: 14_000,
      leastMilli: 13_600,
      maxMilli: 60_000,
    });
    expect(recentFriction([mix(14_000, 20), mix(15_000, 21)], planned).milli).toBe(14_500);
  });

  // The mix of 9 fast minutes where 6 were planned has a factor of 21.5: it says nothing about 6 minutes.
  it.each<[string, Partial<RecentMix>]>([
    ['more minutes', { minutesFast: 9 }],
    ['minutes that nobody noted', { minutesSlow: null }],
    ['half the size', { scalePpm: 500_000 }],
  ])('leaves out a mix of %s', (_what, of) => {
    const found = recentFriction([mix(21_500, 24, of), mix(14_000, 20)], planned);
    expect(found).toMatchObject({ milli: 14_000, used: [{ frictionMilli: 14_000 }], others: [{ frictionMilli: 21_500 }] });
  });

  it('takes the newest seven and no figure from nothing', () => {
    const many = Array.from({ length: 12 }, (_, i) => mix((i + 1) * 1000, i + 1));
    expect(recentFriction(many, planned)).toMatchObject({ milli: 9000, leastMilli: 6000, maxMilli: 12_000 });
    expect(recentFriction([], planned)).toEqual({ milli: null, leastMilli: null, maxMilli: null, used: [], others: [] });
    expect(recentFriction([mix(1000, 1, { minutesFast: 20 })], { minutesSlow: null, minutesFast: null, sizePpm: 1_000_000 }).milli).toBe(
      1000,
    );
  });

  it('lies between the least and the most, whatever the order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -5000, max: 40_000 }), { minLength: 1, maxLength: 12 }), (factors) => {
        const mixes = factors.map((f, i) => mix(f, i + 1));
        const found = recentFriction(mixes, planned);
        expect(found).toEqual(recentFriction([...mixes].reverse(), planned));
        expect(found.milli).toBeGreaterThanOrEqual(found.leastMilli ?? NaN);
        expect(found.milli).toBeLessThanOrEqual(found.maxMilli ?? NaN);
      }),
    );
  });
});
