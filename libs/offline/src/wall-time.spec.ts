import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { onTheWall } from './wall-time.js';

describe('the time on the wall', () => {
  it.each([
    ['2026-11-25T03:40:12.345Z', 'Europe/London', '2026-11-25T03:40:12.345+00:00'],
    ['2026-07-01T03:40:00.000Z', 'Europe/London', '2026-07-01T04:40:00.000+01:00'],
    ['2026-10-25T01:30:00.000Z', 'Europe/London', '2026-10-25T01:30:00.000+00:00'],
    ['2026-11-25T03:40:00.000Z', 'America/St_Johns', '2026-11-25T00:10:00.000-03:30'],
    ['2026-11-25T03:40:00.000Z', 'No/Where', '2026-11-25T03:40:00.000+00:00'],
  ])('%s in %s is %s', (at, zone, expected) => {
    expect(onTheWall(new Date(at), zone)).toBe(expected);
  });

  it('is the same instant, with the offset of the zone, as another implementation has it (Temporal, by its polyfill)', () => {
    const zones = fc.constantFrom('Europe/London', 'America/New_York', 'Asia/Kathmandu', 'Australia/Lord_Howe', 'Pacific/Apia', 'UTC');
    fc.assert(
      fc.property(fc.date({ min: new Date('2000-01-01'), max: new Date('2040-01-01'), noInvalidDate: true }), zones, (at, zone) => {
        const said = onTheWall(at, zone);
        expect(new Date(said).getTime()).toBe(at.getTime());
        expect(said.slice(23)).toBe(Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone).offset);
      }),
    );
  });
});
