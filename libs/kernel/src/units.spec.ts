import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { canConvert, canonical, compareExact, convertDifference, convertExact, formatGrams, unitNames, unitsOf } from './units.js';

const decimal = fc
  .tuple(fc.integer({ min: -999_999_999, max: 999_999_999 }), fc.integer({ min: 0, max: 999_999 }))
  .map(([whole, part]) => `${whole}.${String(part).padStart(6, '0')}`);
const pairs = unitNames.flatMap((from) => unitNames.filter((to) => canConvert(from, to)).map((to) => [from, to] as const));

describe('units', () => {
  it('gives the exact factors of NIST SP 811 and HB 44', () => {
    expect(convertExact('1', 'lb', 'g').toString()).toBe('453.59237');
    expect(convertExact('1', 'oz', 'g').toString()).toBe('28.349523125');
    expect(convertExact('16', 'oz', 'lb').toString()).toBe('1');
    expect(convertExact('1', 'uk-gal', 'l').toString()).toBe('4.54609');
    expect(convertExact('1', 'us-gal', 'l').toString()).toBe('3.785411784');
    expect(convertExact('160', 'uk-fl-oz', 'uk-gal').toString()).toBe('1');
    expect(convertExact('128', 'us-fl-oz', 'us-gal').toString()).toBe('1');
    expect(convertExact('16', 'us-cup', 'us-gal').toString()).toBe('1');
    expect(convertExact('12', 'in', 'ft').toString()).toBe('1');
  });

  it('moves the zero of a temperature but not of a difference', () => {
    expect(convertExact('212', 'degF', 'degC').toString()).toBe('100');
    expect(convertExact('-40', 'degF', 'degC').toString()).toBe('-40');
    expect(convertExact('0', 'K', 'degC').toString()).toBe('-273.15');
    expect(convertDifference('35', 'degF', 'degC').toFixed(2)).toBe('19.44');
    expect(convertDifference('5', 'degC', 'degF').toString()).toBe('9');
  });

  it('refuses to turn a volume into a weight', () => {
    expect(canConvert('ml', 'g')).toBe(false);
    expect(() => convertExact('1', 'ml', 'g')).toThrow(RangeError);
    expect(() => compareExact({ figure: '1', unit: 'piece' }, { figure: '1', unit: 'g' })).toThrow(RangeError);
    expect(unitsOf('temperature')).toEqual(['degC', 'degF', 'K']);
  });

  it('gives canonical integers, half to even, and refuses what has none', () => {
    expect([canonical('25.40', 'kg'), canonical('70', 'degF'), canonical('2', 'piece'), canonical('1.5', 'h')]).toEqual([
      25_400_000, 21_111, 2000, 5_400_000,
    ]);
    expect([canonical('0.5', 'mg'), canonical('1.5', 'mg'), canonical('2.5', 'mg'), canonical('-0.5', 'mg')]).toEqual([0, 2, 2, 0]);
    expect(Object.is(canonical('-0.0001', 'mg'), 0)).toBe(true);
    expect(() => canonical('NaN', 'g')).toThrow(RangeError);
    expect(() => canonical('999999999', 'd')).toThrow(RangeError);
  });

  // Where the figure lies on a half of the smallest unit, what comes back may lie a hair beside it, on either side: both roundings will do.
  it('comes back to the same canonical integer from every unit', () => {
    fc.assert(
      fc.property(decimal, fc.constantFrom(...pairs.filter(([from]) => from !== 'd' && from !== 't')), (figure, [from, to]) => {
        const hair = [-1, 0, 1].map((sign) => canonical(convertExact(figure, from, from).plus(`${sign}e-50`).toString(), from));
        expect(hair).toContain(canonical(convertExact(figure, from, to).toString(), to));
      }),
      { examples: [['-3.000005', ['dl', 'us-cup']]] },
    );
  });

  it('keeps the order of two figures in whatever units, where rounding would not', () => {
    expect(compareExact({ figure: '16', unit: 'oz' }, { figure: '453.59237', unit: 'g' })).toBe(0);
    expect(compareExact({ figure: '70', unit: 'degF' }, { figure: '21.111111111111111111111111', unit: 'degC' })).toBe(1);
    fc.assert(
      fc.property(decimal, decimal, fc.constantFrom(...pairs), (a, b, [from, to]) => {
        const order = compareExact({ figure: a, unit: from }, { figure: b, unit: to });
        expect(compareExact({ figure: b, unit: to }, { figure: a, unit: from })).toBe(order === 0 ? 0 : -order);
        expect(convertExact(a, from, to).comparedTo(b)).toBe(order);
      }),
    );
  });

  it('writes weights as a baker reads them', () => {
    const written = (mg: number) => [formatGrams(mg, 'metric'), formatGrams(mg, 'pounds-and-ounces')];
    expect(written(454_545)).toEqual(['454.5 g', '1 lb']);
    expect(written(16_400_000)).toEqual(['16.4 kg', '36 lb 2.5 oz']);
    expect(written(2_273)).toEqual(['2.27 g', '0.08 oz']);
    expect(written(999_960)).toEqual(['1 kg', '2 lb 3.3 oz']);
    expect(written(453_000)).toEqual(['453 g', '1 lb']);
    expect(written(-907_184.74)).toEqual(['\u2212907.2 g', '\u22122 lb']);
    expect(written(0)).toEqual(['0 g', '0 oz']);
  });
});
