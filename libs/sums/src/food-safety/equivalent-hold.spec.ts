import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { equivalentHold, holdMinutes } from './equivalent-hold.js';
import { lethalMinutes } from './lethality.js';

const given = { referenceCelsius: 70, referenceMinutes: 2, zCelsius: 7.5, celsius: 80 };

describe('equivalent-hold', () => {
  it('is the reference itself at the reference, and ten times shorter one z above', () => {
    expect(holdMinutes(70, 2, 7.5, 70)).toBe(2);
    expect(holdMinutes(70, 2, 7.5, 77.5)).toBeCloseTo(0.2, 12);
  });

  it('goes there and back, shortens as it gets hotter, and is worth the reference by the lethality sum', () => {
    const celsius = fc.double({ min: 40, max: 100, noNaN: true });
    fc.assert(
      fc.property(celsius, celsius, fc.double({ min: 4, max: 12, noNaN: true }), (from, to, z) => {
        const there = holdMinutes(from, 2, z, to);
        expect(holdMinutes(to, there, z, from)).toBeCloseTo(2, 9);
        expect(there <= 2).toBe(to >= from);
        expect(
          lethalMinutes(
            [
              { minutes: 0, celsius: to },
              { minutes: there, celsius: to },
            ],
            from,
            z,
          ),
        ).toBeCloseTo(2, 9);
      }),
    );
  });

  it('gives no figure where the formula has none to give', () => {
    const out = equivalentHold.calculate({ ...given, zCelsius: 0.01, celsius: 300 });
    expect(out).toMatchObject({ ok: true, value: { minutes: null, reason: expect.stringContaining('too many z') } });
    expect(equivalentHold.calculate({ ...given, zCelsius: 0.01, celsius: -90 })).toMatchObject({ ok: true, value: { minutes: null } });
  });

  it('warns beyond two z', () => {
    const far = equivalentHold.calculate({ ...given, celsius: 54 });
    expect(far.ok ? far.value.cautions.join(' ') : '').toMatch(/extrapolation/);
  });

  it.each([
    ['referenceMinutes', -2],
    ['zCelsius', 0],
    ['celsius', NaN],
    ['referenceCelsius', '70'],
    ['celsius', 451],
  ])('refuses %s of %p', (field, value) => {
    expect(equivalentHold.calculate({ ...given, [field]: value })).toMatchObject({
      ok: false,
      field,
      acceptable: expect.stringMatching(/a number/),
    });
  });
});
