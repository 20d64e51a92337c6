import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { fitLogD, zValue } from './z-value.js';

const given = [
  { celsius: 55, dMinutes: 28.64 },
  { celsius: 58, dMinutes: 7.61 },
  { celsius: 61, dMinutes: 3.14 },
];

describe('z-value', () => {
  it('finds the z that made the points, in any order', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.uniqueArray(fc.integer({ min: 40, max: 90 }), { minLength: 2, maxLength: 12 }),
        (z, d, temperatures) => {
          const points = temperatures.map((celsius) => ({ celsius, dMinutes: d * 10 ** ((60 - celsius) / z) }));
          const { slope, r2 } = fitLogD(points);
          expect(-1 / slope).toBeCloseTo(z, 6);
          expect(r2).toBeCloseTo(1, 6);
          expect(fitLogD([...points].reverse()).slope).toBeCloseTo(slope, 9);
        },
      ),
    );
  });

  it('gives no z where D does not fall', () => {
    for (const dMinutes of [28.64, 40]) {
      const out = zValue.calculate({
        points: [
          { celsius: 55, dMinutes: 28.64 },
          { celsius: 58, dMinutes },
        ],
      });
      expect(out).toMatchObject({ ok: true, value: { zCelsius: null, reason: expect.stringContaining('no z') } });
    }
  });

  it('states the temperatures tried as its range', () => {
    expect(zValue.calculate({ points: given })).toMatchObject({ ok: true, value: { validRange: expect.stringContaining('55 to 61 °C') } });
  });

  it.each([
    ['points', []],
    ['points', [given[0]]],
    ['points', [given[0], { celsius: 55, dMinutes: 3 }]],
    ['points.1.dMinutes', [given[0], { celsius: 58, dMinutes: 0 }]],
    ['points.1.dMinutes', [given[0], { celsius: 58, dMinutes: -3 }]],
    ['points.1.celsius', [given[0], { celsius: NaN, dMinutes: 3 }]],
    ['points', Array.from({ length: 10_001 }, (_, i) => ({ celsius: i / 100, dMinutes: 1 }))],
  ])('refuses bad %s', (field, points) => {
    expect(zValue.calculate({ points })).toMatchObject({ ok: false, field, acceptable: expect.stringMatching(/D|temperature/) });
  });
});
