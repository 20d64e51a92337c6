import { describe, expect, it } from '@jest/globals';
import { bakehouse, celsius, night, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

describe('mixing', () => {
  const mix = { minutesSlow: 4, minutesFast: 9, water: celsius('19'), flour: celsius('21'), room: celsius('24'), dough: celsius('28.5') };
  const withMake = (plannedMg: number | null = null) => {
    const book = bakehouse();
    return {
      book,
      make: book.record(
        'make-begun',
        { formulaVersion: whiteVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg },
        { at: night('02:00') },
      ).id,
    };
  };

  it('keeps temperatures in thousandths of a degree C, from either scale', () => {
    const { book, make } = withMake();
    const id = book.record('mixed', { ...mix, make, room: { figure: '75.2', unit: 'degF' } }, { at: night('02:40') }).id;
    expect(book.get('mixed', id)).toMatchObject({
      roomMilli: 24_000,
      doughMilli: 28_500,
      frictionMilli: 21_500,
      expectedFrictionMilli: 14_000,
    });
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('names the size of a double make beside the minutes', () => {
    const { book, make } = withMake(82_900_000);
    expect(book.record('mixed', { ...mix, make }, { at: night('02:40') }).outcome['causes']).toEqual([
      { what: 'fast-minutes', actual: 9, planned: 6 },
      { what: 'size-percent', actual: 200, planned: 100 },
    ]);
  });

  it('says nothing about a factor that nobody could work out', () => {
    const { book, make } = withMake();
    expect(book.record('mixed', { ...mix, make, water: null }, { at: night('02:40') }).outcome).toMatchObject({
      friction: null,
      causes: [],
    });
  });

  it('is refused for a make that is not there', () => {
    expect(bakehouse().refusal('mixed', { ...mix, make: uuid(0xfff) }, { at: night('02:40') })).toMatchObject({
      problem: 'unknown-make',
      field: 'payload.make',
    });
  });
});
