import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { compare, endingDecimal, fraction, minus, nearest, over, plus, ratio, rounded, times } from './fraction.js';

const any = fc
  .tuple(fc.bigInt({ min: -(10n ** 20n), max: 10n ** 20n }), fc.bigInt({ min: 1n, max: 10n ** 12n }))
  .map(([num, den]) => ratio(num, den));

describe('fraction', () => {
  it('takes a decimal as it is written, and refuses what is no number', () => {
    expect(fraction(0.1)).toEqual({ num: 1n, den: 10n });
    expect(fraction('-12.50')).toEqual({ num: -25n, den: 2n });
    expect(fraction(1e-7)).toEqual({ num: 1n, den: 10_000_000n });
    expect(() => fraction(NaN)).toThrow(RangeError);
    expect(() => over(fraction(1), fraction(0))).toThrow(RangeError);
  });

  it('says whether a decimal ends', () => {
    expect(endingDecimal(ratio(1n, 3n))).toBeNull();
    expect([ratio(1n, 8n), ratio(-7n, 50n), ratio(1n, 1n), ratio(0n, 5n)].map(endingDecimal)).toEqual(['0.125', '-0.14', '1', '0']);
  });

  it('rounds half to even on both sides of zero', () => {
    expect([1n, 3n, 5n, -1n, -3n, -5n].map((half) => nearest(ratio(half, 2n)))).toEqual([0n, 2n, 2n, 0n, -2n, -2n]);
    expect(rounded(ratio(2n, 3n), 3)).toBe(0.667);
  });

  it('keeps the laws of arithmetic exactly', () => {
    fc.assert(
      fc.property(any, any, (a, b) => {
        expect(minus(plus(a, b), b)).toEqual(a);
        if (b.num !== 0n) expect(times(over(a, b), b)).toEqual(a);
        expect(compare(a, b) + compare(b, a)).toBe(0);
        const text = endingDecimal(a);
        if (text !== null) expect(fraction(text)).toEqual(a);
      }),
    );
  });
});
