import { describe, expect, it } from '@jest/globals';
import { dayText, mass, massRange, whenText } from './format';

describe('a mass as it is shown', () => {
  it.each([
    [2_500, '2.5 g'],
    [9_999_990, '9,999.99 g'],
    [10_000_000, '10 kg'],
    [41_450_000, '41.45 kg'],
    [-24_500_500, '-24.5005 kg'],
    [0, '0 g'],
    [null, 'not known'],
  ])('%s mg: %s', (mg, text) => {
    expect(mass(mg)).toBe(text);
  });
});

describe('a day as it is said', () => {
  it('names its year where it is not the present one', () => {
    expect(dayText('2026-11-25', '2026')).toBe('Wed 25 Nov');
    expect(dayText('2027-02-24', '2026')).toBe('Wed 24 Feb 2027');
    expect(dayText('2025-12-31', '2026')).toBe('Wed 31 Dec 2025');
  });
});

describe('what is left where some of it may be gone', () => {
  it.each([
    [25_000_000, 8_000_000, '17 to 25 kg'],
    [25_000_000, 0, '25 kg'],
    [25_000_000, 24_500_000, '500 g to 25 kg'],
    [900_000, 2_000_000, '0 to 900 g'],
    [900_000, null, 'at most 900 g'],
    [-500_000, 100_000, '-500 g'],
  ])('of %d mg, perhaps %p gone, is %s', (mg, perhaps, text) => {
    expect(massRange(mg, perhaps)).toBe(text);
  });
});

describe('when something was, as it is said now', () => {
  it.each([
    ['2026-11-29T06:50:00Z', '2026-11-29T09:00:00Z', 'Europe/London', '06:50'],
    ['2026-11-28T06:50:00Z', '2026-11-29T01:26:00Z', 'Europe/London', 'Sat 06:50'],
    ['2026-11-28T23:40:00Z', '2026-11-29T01:26:00Z', 'Europe/Berlin', '00:40'], // both are the 29th there
    ['2026-11-23T00:00:00Z', '2026-11-29T23:59:00Z', 'Europe/London', 'Mon 00:00'],
    ['2026-11-22T23:59:00Z', '2026-11-29T00:00:00Z', 'Europe/London', 'Sun 22 Nov 23:59'], // a Sunday a week ago is not today's
    ['2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z', 'Europe/London', '01:30'], // the hour that comes twice: both are 01:30
    ['2026-11-30T06:00:00Z', '2026-11-29T20:00:00Z', 'Europe/London', 'Mon 06:00'],
  ])('%s, said at %s in %s: %s', (at, now, zone, text) => {
    expect(whenText(at, now, zone)).toBe(text);
  });
});
