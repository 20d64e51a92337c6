import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { exactSum, tolerableError } from './tolerable-error.js';

const tne = (grams: number) => tolerableError(grams)?.tne.toNumber();

describe('tolerable negative error (SI 2006/659; Directive 76/211/EEC Annex I 2.4)', () => {
  it.each([
    [5, 0.5], // 0.45 rounded up
    [49.9, 4.5], // 4.491 rounded up
    [50, 4.5],
    [50.1, 4.5],
    [75, 4.5],
    [100, 4.5],
    [100.1, 4.6], // 4.5045 rounded up
    [150, 6.8], // 6.75 rounded up
    [200, 9],
    [200.1, 9],
    [250, 9],
    [300, 9],
    [300.1, 9.1], // 9.003 rounded up
    [400, 12],
    [500, 15],
    [500.1, 15],
    [800, 15],
    [1000, 15],
    [1000.1, 15.1], // 15.0015 rounded up
    [2000, 30],
    [10_000, 150],
    [10_000.1, 150],
    [12_500, 150],
    [15_000, 150],
    [15_000.1, 150.1], // 150.001 rounded up
    [20_000, 200],
  ])('of %f g is %f g', (grams, expected) => {
    expect(tne(grams)).toBe(expected);
  });

  it('is not given below 5 g', () => {
    expect(tolerableError(4.999)).toBeUndefined();
    expect(tolerableError(0.1)).toBeUndefined();
  });

  it('has no artefacts of binary fractions', () => {
    // each of these percentages is a whole tenth of a gram, and goes wrong in binary arithmetic one way or the other
    expect([tne(140), tne(180), tne(410), tne(470), tne(1100), tne(4600), tne(10)]).toEqual([6.3, 8.1, 12.3, 14.1, 16.5, 69, 0.9]);
    expect(tolerableError(410)?.t1.toString()).toBe('397.7');
    expect(tolerableError(410)?.t2.toString()).toBe('385.4');
    expect(exactSum([0.1, 0.2, 0.3]).toNumber()).toBe(0.6);
  });

  it('never falls as the quantity grows, and is the percentage rounded up by less than a tenth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 500, max: 2_000_000 }), fc.integer({ min: 0, max: 100_000 }), (hundredths, more) => {
        const [small, large] = [tne(hundredths / 100) ?? 0, tne((hundredths + more) / 100) ?? 0];
        expect(large).toBeGreaterThanOrEqual(small);
        expect(Math.abs(small * 10 - Math.round(small * 10))).toBeLessThan(1e-9);
      }),
    );
  });
});
