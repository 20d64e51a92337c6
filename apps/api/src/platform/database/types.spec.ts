import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { isoInstant, safeInteger } from './types.js';

describe('an instant as PostgreSQL writes it', () => {
  it.each([
    ['2026-11-25 03:40:00+00', '2026-11-25T03:40:00.000Z'],
    ['2026-11-25 04:40:00.5+01', '2026-11-25T03:40:00.500Z'],
    ['2026-11-25 09:10:00.123456+05:30', '2026-11-25T03:40:00.123Z'],
    ['2026-11-24 23:40:00.12-04', '2026-11-25T03:40:00.120Z'],
  ])('%s is %s', (written, expected) => {
    expect(isoInstant(written)).toBe(expected);
  });

  it('agrees with the language’s own dates in every zone', () => {
    const instants = fc.date({ min: new Date('1970-01-01T00:00:00Z'), max: new Date('9998-01-01T00:00:00Z'), noInvalidDate: true });
    fc.assert(
      fc.property(instants, fc.integer({ min: -12 * 60, max: 14 * 60 }), (at, minutes) => {
        const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, -1).replace('T', ' ');
        const [hours, rest] = [Math.trunc(Math.abs(minutes) / 60), Math.abs(minutes) % 60].map((n) => String(n).padStart(2, '0'));
        expect(isoInstant(`${local}${minutes < 0 ? '-' : '+'}${hours}${rest === '00' ? '' : `:${rest}`}`)).toBe(at.toISOString());
      }),
    );
  });

  it.each(['infinity', '0044-03-15 12:00:00+00 BC', '12026-01-01 00:00:00+00'])('refuses %s', (written) => {
    expect(() => isoInstant(written)).toThrow(RangeError);
  });
});

describe('an integer of 64 bits', () => {
  it('is a number as far as numbers are exact', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), (n) => {
        expect(safeInteger(String(n))).toBe(n);
      }),
    );
    expect(() => safeInteger('9007199254740992')).toThrow(RangeError);
    expect(() => safeInteger('-9223372036854775808')).toThrow(RangeError);
  });
});
