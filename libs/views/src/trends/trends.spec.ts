import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { mean, median } from 'simple-statistics';
import { byDay, middleOf } from './by-day.js';
import { controlOf } from './control.js';
import { thinned } from './thinned.js';

const series = fc.array(fc.record({ value: fc.integer({ min: -50, max: 250 }), matters: fc.boolean() }), { maxLength: 400 });
const inTime = <T extends object>(all: readonly T[]) =>
  all.map((one, i) => ({ ...one, id: String(i), at: new Date(Date.UTC(2026, 9, 20) + i * 600_000).toISOString() }));

describe('a series that is thinned to be drawn', () => {
  it('keeps its lowest, its highest, all that matters and its order, and is no longer than that needs', () => {
    fc.assert(
      fc.property(series, fc.integer({ min: 3, max: 60 }), (drawn, atMost) => {
        const all = inTime(drawn);
        const kept = thinned(all, atMost);
        const values = (of: readonly { value: number }[]): number[] => of.map((r) => r.value);
        if (all.length > 0) {
          expect(Math.min(...values(kept))).toBe(Math.min(...values(all)));
          expect(Math.max(...values(kept))).toBe(Math.max(...values(all)));
        }
        expect(kept.filter((r) => r.matters)).toEqual(all.filter((r) => r.matters));
        expect(kept).toEqual(all.filter((r) => kept.includes(r)));
        expect(kept.filter((r) => !r.matters).length).toBeLessThanOrEqual(Math.max(atMost, 3));
      }),
    );
  });

  it('is left as it is where there are few', () => {
    const all = inTime([{ value: 1, matters: false }]);
    expect(thinned(all, 3)).toEqual(all);
  });
});

describe('the middle of a day', () => {
  // simple-statistics 7: median
  it('is the median of a reference library', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 30 }), (drawn) => {
        const inOrder = [...drawn].sort((a, b) => a - b);
        expect(middleOf(inOrder)).toBe(median(inOrder));
      }),
    );
    expect(middleOf([])).toBeNull();
  });
});

describe('the days of a series', () => {
  const site = { zone: 'Europe/London', dayStarts: '04:00' };
  const read = (at: string, value: number, verdict = 'within', doubted = false) => ({ at, value, verdict, doubted });

  it('begin when the site’s day begins, on the night of the clock change too', () => {
    // 25 October 2026: at 01:00 UTC the clocks go back from 02:00 to 01:00; 04:00 on the wall is 03:00 UTC the day before and 04:00 UTC after it.
    const days = byDay([read('2026-10-25T03:59:59Z', 3), read('2026-10-25T04:00:00Z', 5), read('2026-10-24T03:00:00Z', 4)], [], site);
    expect(days.map((d) => [d.day, d.lowest, d.highest])).toEqual([
      ['2026-10-24', 3, 4],
      ['2026-10-25', 5, 5],
    ]);
  });

  it('tell apart what was outside, what has to be confirmed, what cannot be right and what was not taken', () => {
    const all = [
      read('2026-11-25T06:00:00Z', 94),
      read('2026-11-25T06:10:00Z', 72, 'outside'),
      read('2026-11-25T06:20:00Z', 71, 'outside', true),
      read('2026-11-25T06:30:00Z', 75.2, 'unsure'),
      read('2026-11-25T06:40:00Z', 940, 'not-believable'),
    ];
    expect(byDay(all, [{ at: '2026-11-25T07:00:00Z' }, { at: '2026-11-26T07:00:00Z' }], site)).toEqual([
      { day: '2026-11-25', readings: 4, lowest: 71, middle: 73.6, highest: 94, outside: 1, toConfirm: 2, notBelievable: 1, notTaken: 1 },
      {
        day: '2026-11-26',
        readings: 0,
        lowest: null,
        middle: null,
        highest: null,
        outside: 0,
        toConfirm: 0,
        notBelievable: 0,
        notTaken: 1,
      },
    ]);
  });
});

describe('how a series usually varies', () => {
  // NIST/SEMATECH e-Handbook 6.3.2.2: the mean ± 2.66 times the mean moving range (3 / 1.128)
  it('is its mean and 2.66 mean moving ranges on both sides', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 20, maxLength: 60 }), (values) => {
        const ranges = values.slice(1).map((v, i) => Math.abs(v - (values[i] ?? 0)));
        const { control, whyNoControl } = controlOf(inTime(values.map((value) => ({ value }))));
        if (Math.max(...ranges) === 0) expect([control, whyNoControl]).toEqual([null, 'all-alike']);
        else {
          const reach = (3 / 1.128) * mean(ranges);
          expect(control?.centre).toBeCloseTo(mean(values), 8);
          expect(control?.upper).toBeCloseTo(mean(values) + reach, 6);
          expect(control?.lower).toBeCloseTo(mean(values) - reach, 6);
        }
      }),
    );
  });

  it('is not said of fewer than twenty', () => {
    expect(controlOf(inTime([1, 2, 3].map((value) => ({ value }))))).toEqual({ control: null, whyNoControl: 'too-few' });
  });

  it('names the reading that completes a pattern: nine in a row on one side', () => {
    const values = [4, 6, 4, 6, 4, 6, 4, 6, 4, 6, 4, ...Array.from({ length: 9 }, (_, i) => 5.6 + (i % 2) / 10)];
    const all = inTime(values.map((value) => ({ value })));
    const { control } = controlOf(all);
    expect(control?.signals.filter((s) => s.rule === 2).map((s) => s.reading)).toEqual([all.at(-1)?.id]);
  });
});
