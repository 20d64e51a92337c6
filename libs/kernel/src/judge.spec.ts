import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { judge } from './judge.js';

const celsius = (figure: string) => ({ figure, unit: 'degC' as const });

describe('judge', () => {
  it('lets a limit belong to what it allows, where nothing is in doubt', () => {
    expect(judge(celsius('8.0'), { max: '8', unit: 'degC' }, '0')).toBe('within');
    expect(judge(celsius('8.1'), { max: '8', unit: 'degC' }, '0')).toBe('outside');
    expect(judge(celsius('63'), { min: '63', unit: 'degC' }, '0')).toBe('within');
    expect(judge(celsius('62.9'), { min: '63', unit: 'degC' }, '0')).toBe('outside');
  });

  it('is unsure closer to a limit than the half-width, on both sides, and sure at exactly that far', () => {
    const max = { max: '8', unit: 'degC' as const };
    expect(['6.9', '7', '7.1', '8', '8.9', '9', '9.1'].map((figure) => judge(celsius(figure), max, '1'))).toEqual([
      'within',
      'within',
      'unsure',
      'unsure',
      'unsure',
      'outside',
      'outside',
    ]);
    const both = { min: '0', max: '8', unit: 'degC' as const };
    expect(['-1', '-0.5', '0.9', '1', '7', '7.1', '9'].map((figure) => judge(celsius(figure), both, '1'))).toEqual([
      'outside',
      'unsure',
      'unsure',
      'within',
      'within',
      'unsure',
      'outside',
    ]);
  });

  it('compares in the unit of the limit: 21.05 °C is within 70 °F and outside 21 °C', () => {
    expect(judge(celsius('21.05'), { max: '70', unit: 'degF' }, '0')).toBe('within');
    expect(judge(celsius('21.05'), { max: '21', unit: 'degC' }, '0')).toBe('outside');
  });

  it('counts in decimals and over whole conversions', () => {
    expect(8.3 - 8).not.toBe(0.3);
    expect(judge(celsius('8.3'), { max: '8', unit: 'degC' }, '0.3')).toBe('outside');
    expect(judge({ figure: '16', unit: 'oz' }, { max: '1', unit: 'lb' }, '0')).toBe('within');
    expect(judge({ figure: '41', unit: 'degF' }, { max: '5', unit: 'degC' }, '0')).toBe('within');
    expect(judge({ figure: '4', unit: 'h' }, { max: '240', unit: 'min' }, '0')).toBe('within');
    expect(judge({ figure: '240.000000000001', unit: 'min' }, { max: '4', unit: 'h' }, '0')).toBe('outside');
  });

  it('never says within of what it cannot read, or against no limit', () => {
    expect(judge(celsius('NaN'), { max: '8', unit: 'degC' }, '0')).toBe('unsure');
    expect(judge(celsius('5'), { max: 'NaN', unit: 'degC' }, '0')).toBe('unsure');
    expect(judge(celsius('5'), { unit: 'degC' }, '0')).toBe('unsure');
    expect(judge(celsius('5'), { min: null, max: null, unit: 'degC' }, '0')).toBe('unsure');
    expect(judge(celsius('5'), { max: '8', unit: 'degC' }, '-1')).toBe('unsure');
    expect(() => judge({ figure: '5', unit: 'kg' }, { max: '8', unit: 'degC' }, '0')).toThrow(RangeError);
  });

  it('reaches the same verdict in either unit, and a wider doubt only turns a verdict into unsure', () => {
    const tenths = fc.integer({ min: -500, max: 2000 });
    fc.assert(
      fc.property(tenths, tenths, fc.integer({ min: 0, max: 50 }), fc.integer({ min: 0, max: 50 }), (reading, end, half, wider) => {
        const fahrenheit = (n: number) => String((n * 18 + 3200) / 100);
        const inCelsius = judge(celsius(String(reading / 10)), { min: String(end / 10), unit: 'degC' }, String(half / 10));
        const across = judge(celsius(String(reading / 10)), { min: fahrenheit(end), unit: 'degF' }, String((half * 18) / 100));
        expect(across).toBe(inCelsius);
        const doubted = judge(celsius(String(reading / 10)), { min: String(end / 10), unit: 'degC' }, String((half + wider) / 10));
        expect([inCelsius, 'unsure']).toContain(doubted);
      }),
    );
  });
});
