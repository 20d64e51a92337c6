import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { afterNothing, afterRight, afterWrong, beforeTry, delayAfter, none, type Count, type Counts } from './guessing.js';

const start = Date.parse('2026-11-25T03:00:00Z');
const clean: Counts = { own: none, place: none, elsewhere: none };

/** One try that is right, at an instant when it is allowed. */
function right(from: Counts, now: number): Counts {
  const allowed = beforeTry(from, now);
  if (!allowed.ok) throw new Error('not allowed');
  return afterRight(allowed.counts, now);
}

/** Wrong tries one after the other, each as soon as it is allowed; the waits before each. */
function guess(from: Counts, times: number, at = start): { counts: Counts; waits: number[]; now: number } {
  let [counts, now] = [from, at];
  const waits: number[] = [];
  while (waits.length < times) {
    const first = beforeTry(counts, now);
    const wait = first.ok ? 0 : first.waitMs;
    now += wait;
    const allowed = first.ok ? first : beforeTry(counts, now);
    if (!allowed.ok) throw new Error('not allowed when it said');
    waits.push(wait);
    counts = afterWrong(allowed.counts, now);
  }
  return { counts, waits, now };
}

const seconds = (ms: readonly number[]): number[] => ms.map((one) => one / 1000);

describe('guessing one person’s PIN', () => {
  it('is free three times, then waits 5 s, twice as long each time, five minutes at most', () => {
    expect(seconds(guess(clean, 12).waits)).toEqual([0, 0, 0, 5, 10, 20, 40, 80, 160, 300, 300, 300]);
  });

  it('takes weeks for half of ten thousand', () => {
    const half = guess(clean, 5000).now - start;
    expect(half / 86_400_000).toBeGreaterThan(17);
  });

  it('starts again after the right one, and after twelve hours', () => {
    const { counts, now } = guess(clean, 8);
    expect(seconds(guess(right(counts, now + 300_000), 4, now + 300_000).waits)).toEqual([0, 0, 0, 5]);
    expect(seconds(guess(counts, 4, now + 12 * 3_600_000).waits)).toEqual([0, 0, 0, 5]);
  });

  it('is counted before it is looked at: of a hundred at once three are looked at', () => {
    let counts = clean;
    const looked = Array.from({ length: 100 }, () => {
      const one = beforeTry(counts, start);
      if (one.ok) counts = one.counts;
      return one.ok;
    }).filter(Boolean);
    expect(looked).toHaveLength(3);
  });
});

describe('trying one PIN on person after person', () => {
  const other = (place: Count): Counts => ({ ...clean, place });

  it('is slowed at the place after ten', () => {
    let [place, at] = [none, start];
    const waits = Array.from({ length: 13 }, () => {
      const {
        counts,
        waits: [wait = 0],
        now,
      } = guess(other(place), 1, at);
      [place, at] = [counts.place, now];
      return wait;
    });
    expect(seconds(waits)).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 5, 10, 20]);
  });

  it('does not slow a person who was right there before and has not been wrong since', () => {
    const busy: Count = { failures: 40, lastAt: start, nextAt: start + 300_000, goodAt: null };
    const known: Count = { ...none, goodAt: start - 86_400_000 };
    expect(beforeTry({ ...clean, own: known, place: busy }, start).ok).toBe(true);
    expect(beforeTry({ ...clean, place: busy }, start)).toEqual({ ok: false, waitMs: 300_000 });
    expect(beforeTry({ ...clean, own: { ...known, failures: 1, lastAt: start }, place: busy }, start)).toEqual({
      ok: false,
      waitMs: 300_000,
    });
  });

  it('is not forgotten because the guesser’s own PIN was right in between', () => {
    let place = none;
    for (let i = 0; i < 9; i += 1) place = guess(other(place), 1).counts.place;
    const own = guess(other(place), 1);
    expect(right(own.counts, own.now + 5000).place.failures).toBe(9);
  });
});

describe('guessing one person’s PIN from a thousand networks', () => {
  const fromAnother = (elsewhere: Count, now: number): Counts => guess({ ...clean, elsewhere }, 1, now).counts;

  it('is as slow as from one, after ten', () => {
    let [elsewhere, now] = [none, start];
    const waits = Array.from({ length: 14 }, () => {
      const { counts, waits: one, now: then } = guess({ ...clean, elsewhere }, 1, now);
      [elsewhere, now] = [counts.elsewhere, then];
      return one[0] ?? 0;
    });
    expect(seconds(waits)).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 5, 10, 20, 40]);
  });

  it('does not slow that person where they were right before', () => {
    let elsewhere = none;
    for (let i = 0; i < 12; i += 1) elsewhere = fromAnother(elsewhere, start + i * 300_000).elsewhere;
    const now = start + 12 * 300_000;
    expect(beforeTry({ ...clean, elsewhere: { ...elsewhere, nextAt: now + 1 } }, now).ok).toBe(false);
    expect(beforeTry({ ...clean, own: { ...none, goodAt: start }, elsewhere: { ...elsewhere, nextAt: now + 1 } }, now).ok).toBe(true);
  });
});

describe('a try that nobody looked at', () => {
  it('counts for nothing, however many there are', () => {
    fc.assert(
      fc.property(fc.nat(20), fc.nat(3), (times, wrong) => {
        let { counts, now } = guess(clean, wrong);
        const before = counts.own;
        for (let i = 0; i < times; i += 1) {
          const one = beforeTry(counts, now);
          if (!one.ok) now += one.waitMs;
          const allowed = one.ok ? one : beforeTry(counts, now);
          if (!allowed.ok) throw new Error('not allowed when it said');
          counts = afterNothing(allowed.counts);
        }
        expect(counts.own.failures).toBe(before.failures);
        expect(counts.place.failures).toBe(wrong);
      }),
    );
  });
});

describe('honest tries', () => {
  it('of many at once from one place do not slow each other', () => {
    const place: Count = { ...none, failures: 9, lastAt: start, nextAt: start };
    const tries = Array.from({ length: 100 }, () => beforeTry({ ...clean, place }, start));
    expect(tries.every((one) => one.ok && one.counts.place.failures === 9)).toBe(true);
  });

  it('leave nothing behind at the place once the PIN was right', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 40 }), (people) => {
        let place = none;
        for (const tries of people) {
          const { counts, now } = guess({ ...clean, place }, tries);
          place = right(counts, now + 5000).place;
        }
        expect(place.failures).toBe(0);
      }),
    );
  });
});

it('does not wait for a clock that was put back, and goes on counting', () => {
  const { counts } = guess(clean, 9, start + 86_400_000);
  const after = beforeTry(counts, start);
  expect(after.ok && after.counts.own).toMatchObject({ failures: 10, nextAt: start + 300_000 });
});

it('never asks to wait longer than five minutes, or to a time that is not one', () => {
  fc.assert(
    fc.property(fc.nat(1_000_000), fc.nat(20), (failures, free) => {
      const delay = delayAfter(failures, free);
      expect(delay).toBeGreaterThanOrEqual(0);
      expect(delay).toBeLessThanOrEqual(300_000);
    }),
  );
});
