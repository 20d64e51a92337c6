import { describe, expect, it } from '@jest/globals';
import { Fetching } from './fetching.js';

const now = new Date('2026-11-25T02:30:00.000Z');
const soon = '2026-11-25T02:29:40.000Z';
const old = '2026-11-25T02:28:40.000Z';

describe('what is on its way to a device', () => {
  it('is loading until the first answer, however new the rows are that were kept', () => {
    const fetching = new Fetching();
    expect(fetching.isLoading(soon, now)).toBe(false); // nothing was asked
    const end = fetching.begin();
    expect([null, old, soon].map((asOf) => fetching.isLoading(asOf, now))).toEqual([true, true, true]);
    fetching.answered();
    end();
    expect([null, old, soon].map((asOf) => fetching.isLoading(asOf, now))).toEqual([false, false, false]);
  });

  it('is loading again where the rows are old, as on a device that slept, and not at each look every half minute', () => {
    const fetching = new Fetching();
    fetching.begin()();
    fetching.answered();
    const [one, two] = [fetching.begin(), fetching.begin()];
    expect([old, soon].map((asOf) => fetching.isLoading(asOf, now))).toEqual([true, false]);
    one();
    expect(fetching.isLoading(old, now)).toBe(true); // the other is under way still
    two();
    expect(fetching.isLoading(old, now)).toBe(false);
  });
});
