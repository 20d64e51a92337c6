import { describe, expect, it } from '@jest/globals';
import { wallTime } from './wall-clock.js';

describe('the clock on the wall', () => {
  // IANA time zone database: Europe/London leaves summer time on 25 October 2026 at 01:00 UTC; Asia/Kolkata is +05:30; America/St_Johns is −03:30 in winter
  it.each([
    ['2026-10-25T00:59:59.999Z', 'Europe/London', '25 Oct 2026 01:59'],
    ['2026-10-25T01:00:00.000Z', 'Europe/London', '25 Oct 2026 01:00'],
    ['2026-11-25T23:40:00.000Z', 'Asia/Kolkata', '26 Nov 2026 05:10'],
    ['2026-11-25T03:00:00.000Z', 'America/St_Johns', '24 Nov 2026 23:30'],
    ['2026-01-01T00:00:00.000Z', 'UTC', '1 Jan 2026 00:00'],
  ])('shows %s in %s as %s', (at, zone, text) => expect(wallTime(at, zone)).toBe(text));

  it('refuses a zone and an instant that do not exist', () => {
    expect(() => wallTime('2026-11-25T00:00:00Z', 'Europe/Atlantis')).toThrow(RangeError);
    expect(() => wallTime('yesterday', 'UTC')).toThrow(RangeError);
  });
});
