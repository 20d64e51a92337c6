import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { dayBounds, dayOfWeek, dayText, isZone, lastShown, localDay, onTheWall, siteDay, wallClock, wallFigures } from './wall-time.js';

const hours = ({ from, until }: { from: string; until: string }): number => (Date.parse(until) - Date.parse(from)) / 3_600_000;
const zones = ['Europe/London', 'America/New_York', 'Asia/Kathmandu', 'Australia/Lord_Howe', 'Pacific/Auckland', 'Pacific/Apia', 'UTC'];
const anyInstant = fc.date({ min: new Date('2000-01-01'), max: new Date('2040-01-01'), noInvalidDate: true }).map((d) => d.toISOString());

// Clock changes of 2026 (IANA time zone database): London 29 March and 25 October at 01:00 UTC; New York 8 March at 07:00 UTC and 1 November at
// 06:00 UTC; Auckland 4 April at 14:00 UTC (back) and 26 September at 14:00 UTC (forward).
describe('the time on the wall', () => {
  it.each([
    ['2026-11-25T03:40:12.345Z', 'Europe/London', '2026-11-25T03:40:12.345+00:00'],
    ['2026-07-01T03:40:00.000Z', 'Europe/London', '2026-07-01T04:40:00.000+01:00'],
    ['2026-10-25T00:30:00.000Z', 'Europe/London', '2026-10-25T01:30:00.000+01:00'],
    ['2026-10-25T01:30:00.000Z', 'Europe/London', '2026-10-25T01:30:00.000+00:00'],
    ['2026-11-25T03:40:00.000Z', 'America/St_Johns', '2026-11-25T00:10:00.000-03:30'],
    ['2026-04-04T13:59:59.999Z', 'Pacific/Auckland', '2026-04-05T02:59:59.999+13:00'],
    ['2026-04-04T14:00:00.000Z', 'Pacific/Auckland', '2026-04-05T02:00:00.000+12:00'],
    ['2026-11-25T16:40:00+13:00', 'Pacific/Auckland', '2026-11-25T16:40:00.000+13:00'],
  ])('%s in %s is %s', (at, zone, expected) => {
    expect(onTheWall(at, zone)).toBe(expected);
    expect(wallClock(at, zone)).toEqual({ day: expected.slice(0, 10), time: expected.slice(11, 16), offset: expected.slice(23) });
  });

  it('is the same instant, with the figures that another implementation shows (Intl)', () => {
    fc.assert(
      fc.property(anyInstant, fc.constantFrom(...zones), (at, zone) => {
        const said = onTheWall(at, zone);
        expect(new Date(said).toISOString()).toBe(at);
        const shown = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' }).format(new Date(at));
        expect(said.slice(0, 19).replace('T', ' ')).toBe(shown);
      }),
    );
  });

  it('gives a spreadsheet the figures', () => {
    expect(wallFigures('2026-06-30T22:30:00.250Z', 'Europe/London').toISOString()).toBe('2026-06-30T23:30:00.250Z');
    expect(wallFigures('2026-04-04T14:30:00.000Z', 'Pacific/Auckland').toISOString()).toBe('2026-04-05T02:30:00.000Z');
  });

  it('refuses a zone or an instant that does not exist', () => {
    expect(() => wallClock('2026-11-25T00:00:00Z', 'Europe/Atlantis')).toThrow(RangeError);
    expect(() => wallClock('yesterday', 'UTC')).toThrow(RangeError);
    expect(['Europe/London', 'Europe/Atlantis', ''].map(isZone)).toEqual([true, false, false]);
  });
});

describe('the date on the wall', () => {
  it.each([
    ['2026-11-25T10:59:59Z', 'Pacific/Auckland', '2026-11-25'],
    ['2026-11-25T11:00:00Z', 'Pacific/Auckland', '2026-11-26'],
    ['2026-11-26T04:59:59Z', 'America/New_York', '2026-11-25'],
    ['2026-11-26T05:00:00Z', 'America/New_York', '2026-11-26'],
  ])('at %s in %s is %s', (at, zone, day) => {
    expect(localDay(at, zone)).toBe(day);
  });
  it('is written so that it cannot be read two ways', () => {
    expect(['2026-02-01', '2026-09-30'].map(dayText)).toEqual(['1 Feb 2026', '30 Sep 2026']);
  });
  it('knows the day of the week', () => {
    expect(['2026-11-23', '2026-11-25', '2026-11-29'].map(dayOfWeek)).toEqual([1, 3, 7]);
  });
});

describe('a time that somebody types', () => {
  it.each([
    ['22:15', '2026-11-25T16:40:00Z', 'Pacific/Auckland', '2026-11-25T09:15:00.000Z', 'yesterday evening'],
    ['05:10', '2026-11-25T16:40:00Z', 'Pacific/Auckland', '2026-11-25T16:10:00.000Z', 'half an hour ago'],
    ['05:41', '2026-11-25T16:40:00Z', 'Pacific/Auckland', '2026-11-24T16:41:00.000Z', 'nearly a day ago'],
    ['05:40', '2026-11-25T16:40:27.250Z', 'Pacific/Auckland', '2026-11-25T16:40:27.250Z', 'this minute, as far into it as now'],
    ['4:05', '2026-11-25T05:00:00Z', 'UTC', '2026-11-25T04:05:00.000Z', 'one figure for the hour'],
    // Back: 01:00 to 02:00 comes twice in London, 02:00 to 03:00 in Auckland.
    ['01:30', '2026-10-25T03:00:00Z', 'Europe/London', '2026-10-25T01:30:00.000Z', 'after both: the second'],
    ['01:30', '2026-10-25T01:10:00Z', 'Europe/London', '2026-10-25T00:30:00.000Z', 'between the two: the first'],
    ['01:30', '2026-10-25T00:20:00Z', 'Europe/London', '2026-10-24T00:30:00.000Z', 'before both: yesterday’s'],
    ['02:30', '2026-04-04T16:00:00Z', 'Pacific/Auckland', '2026-04-04T14:30:00.000Z', 'after both: the second'],
    ['23:30', '2026-04-04T16:00:00Z', 'Pacific/Auckland', '2026-04-04T10:30:00.000Z', 'over the change'],
    // Forward: no clock shows 01:30 in London on 29 March, nor 02:30 in Auckland on 27 September.
    ['01:30', '2026-03-29T03:00:00Z', 'Europe/London', '2026-03-29T01:30:00.000Z', 'skipped: as a clock that stayed showed it'],
    ['01:30', '2026-03-29T01:10:00Z', 'Europe/London', '2026-03-29T00:30:00.000Z', 'skipped, a moment after the change'],
    ['02:30', '2026-09-26T16:00:00Z', 'Pacific/Auckland', '2026-09-26T14:30:00.000Z', 'skipped: as a clock that stayed showed it'],
    ['23:30', '2026-09-26T16:00:00Z', 'Pacific/Auckland', '2026-09-26T11:30:00.000Z', 'over the change'],
  ])('%s, typed at %s in %s, was %s: %s', (time, now, zone, at) => {
    expect(lastShown(time, zone, now)).toBe(at);
  });

  it('was shown at that instant, within the last day, unless the clock skipped it', () => {
    const minuteOfDay = fc.integer({ min: 0, max: 1439 });
    fc.assert(
      fc.property(minuteOfDay, anyInstant, fc.constantFrom(...zones), (minute, now, zone) => {
        const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
        const at = lastShown(time, zone, now) ?? '';
        expect(Date.parse(at)).toBeLessThanOrEqual(Date.parse(now));
        expect(Date.parse(now) - Date.parse(at)).toBeLessThan(zone === 'Pacific/Apia' ? 73 * 3_600_000 : 26 * 3_600_000); // Samoa skipped a whole day
        const { time: shown, day } = wallClock(at, zone);
        if (shown !== time) expect(hours(dayBounds(day, zone))).toBeLessThan(24);
      }),
    );
  });

  it.each(['', '24:00', '12:60', '7', 'soon'])('%j is no time', (time) => {
    expect(lastShown(time, 'UTC', '2026-11-25T05:00:00Z')).toBeUndefined();
  });
});

describe('a site’s day', () => {
  it.each([
    ['2026-03-28', 'Europe/London', 24],
    ['2026-03-29', 'Europe/London', 23],
    ['2026-10-25', 'Europe/London', 25],
    ['2026-04-05', 'Pacific/Auckland', 25],
    ['2026-09-27', 'Pacific/Auckland', 23],
    ['2026-11-01', 'America/New_York', 25],
  ])('%s in %s is %i hours long', (day, zone, long) => {
    expect(hours(dayBounds(day, zone))).toBe(long);
  });
  it('starts when the site says', () => {
    expect(dayBounds('2026-11-25', 'Europe/Berlin', '18:00')).toEqual({
      from: '2026-11-25T17:00:00.000Z',
      until: '2026-11-26T17:00:00.000Z',
    });
  });
  it('can be widened by days', () => {
    expect(dayBounds('2026-11-25', 'UTC', '00:00', { before: 2, after: 1 })).toEqual({
      from: '2026-11-23T00:00:00.000Z',
      until: '2026-11-27T00:00:00.000Z',
    });
  });
  it('refuses a zone that does not exist', () => {
    expect(() => dayBounds('2026-11-25', 'Mars/Olympus')).toThrow(RangeError);
  });
});

describe('the site’s day at an instant', () => {
  it.each([
    // A day that starts at 03:00: the hour before it belongs to yesterday, on nights when the clocks change too.
    ['2026-11-25T02:59:59Z', 'Europe/London', '03:00', '2026-11-24'],
    ['2026-11-25T03:00:00Z', 'Europe/London', '03:00', '2026-11-25'],
    ['2026-03-29T01:59:59Z', 'Europe/London', '03:00', '2026-03-28'],
    ['2026-03-29T02:00:00Z', 'Europe/London', '03:00', '2026-03-29'],
    ['2026-10-25T02:59:59Z', 'Europe/London', '03:00', '2026-10-24'],
    ['2026-10-25T03:00:00Z', 'Europe/London', '03:00', '2026-10-25'],
    ['2026-11-01T06:30:00Z', 'America/New_York', '02:00', '2026-10-31'],
    ['2026-11-01T07:00:00Z', 'America/New_York', '02:00', '2026-11-01'],
    ['2026-03-08T06:59:59Z', 'America/New_York', '03:00', '2026-03-07'],
    ['2026-03-08T07:00:00Z', 'America/New_York', '03:00', '2026-03-08'],
    // Half an hour back, at 02:00 on the first Sunday of April.
    ['2026-04-04T16:29:59Z', 'Australia/Lord_Howe', '03:00', '2026-04-04'],
    ['2026-04-04T16:30:00Z', 'Australia/Lord_Howe', '03:00', '2026-04-05'],
    ['2026-11-24T18:29:00Z', 'Asia/Kolkata', '00:00', '2026-11-24'],
    ['2026-11-24T18:30:00Z', 'Asia/Kolkata', '00:00', '2026-11-25'],
    // An instant written with its offset is the same instant.
    ['2026-11-26T02:59:59+13:00', 'Pacific/Auckland', '03:00', '2026-11-25'],
    ['2026-11-26T03:00:00+13:00', 'Pacific/Auckland', '03:00', '2026-11-26'],
  ])('%s in %s, where it starts at %s, is of %s', (at, zone, dayStarts, day) => {
    expect(siteDay(at, { zone, dayStarts })).toBe(day);
  });
});
