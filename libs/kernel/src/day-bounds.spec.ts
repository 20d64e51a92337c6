import { describe, expect, it } from '@jest/globals';
import { dayBounds, siteDay } from './day-bounds.js';

const hours = ({ from, until }: { from: string; until: string }): number => (Date.parse(until) - Date.parse(from)) / 3_600_000;

// Clock changes of 2026 in the European Union and the United Kingdom: 29 March and 25 October at 01:00 UTC (IANA time zone database).
describe('a site’s day', () => {
  it.each([
    ['2026-03-28', 24],
    ['2026-03-29', 23],
    ['2026-10-25', 25],
    ['2026-11-25', 24],
  ])('%s in London is %i hours long', (day, long) => {
    expect(hours(dayBounds(day, 'Europe/London'))).toBe(long);
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
    // A day that starts at 03:00: the hour before it belongs to yesterday, on nights when the clocks change too (IANA time zone database).
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
  ])('%s in %s, where it starts at %s, is of %s', (at, zone, dayStarts, day) => {
    expect(siteDay(at, { zone, dayStarts })).toBe(day);
  });
});
