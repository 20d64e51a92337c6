import { canConvert, unitCalled, unitNames } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { convert } from './convert.js';

const asked = (value: unknown, from: unknown, to: unknown, more: Record<string, unknown> = {}) => {
  const out = convert.calculate({ value, from, to, ...more });
  return out.ok ? out.value : `${out.field}: ${out.acceptable}`;
};

describe('convert', () => {
  it('gives an exact decimal, or a fraction where the decimal never ends', () => {
    expect(asked(1, 'lb', 'g')).toMatchObject({ exact: '453.59237', fraction: null, rounded: 453.592, reason: null });
    expect(asked('70', 'degF', 'degC')).toMatchObject({
      exact: null,
      fraction: '190/9',
      rounded: 21.111,
      reason: expect.stringContaining('for ever'),
    });
    expect(asked(1, 'g', 'lb')).toMatchObject({ exact: null, fraction: '100000/45359237', rounded: 0.00220462 });
    expect(asked('0.1', 'kg', 'g', { places: 0 })).toMatchObject({ exact: '100', rounded: 100 });
    expect(asked(1, 'uk-gal', 'us-gal')).toMatchObject({ exact: null, rounded: 1.201 });
  });

  it('converts a difference without the 32', () => {
    expect(asked(35, 'F', 'C', { difference: true, places: 2 })).toMatchObject({ fraction: '175/9', rounded: 19.44 });
    expect(asked(35, 'F', 'C')).toMatchObject({ fraction: '5/3' });
    expect(asked(-5, 'degC', 'degF', { difference: true })).toMatchObject({ exact: '-9' });
  });

  it('comes back exactly, from every unit to every other', () => {
    const pairs = unitNames.flatMap((from) => unitNames.filter((to) => canConvert(from, to)).map((to) => [from, to] as const));
    fc.assert(
      fc.property(fc.constantFrom(...pairs), fc.integer({ min: 0, max: 1_000_000 }), ([from, to], thousandths) => {
        const there = asked(thousandths / 1000, from, to);
        if (typeof there === 'string') throw new Error(there);
        if (there.exact === null || there.exact.length > 15) return;
        expect(asked(there.exact, to, from)).toMatchObject({ exact: String(thousandths / 1000) });
      }),
    );
  });

  it('invents no density and no meaning for a word that has two', () => {
    expect(asked(1, 'l', 'g')).toMatch(/^to: a unit of volume like l: .*density measured/);
    expect(asked(1, 'piece', 'g')).toMatch(/^to: a unit of count/);
    expect(asked(1, 'gallon', 'l')).toBe('from: uk-gal or us-gal');
    expect(asked(1, 'cup', 'ml')).toMatch(/^from: us-cup/);
    expect(asked(1, 'constructor', 'g')).toMatch(/^from: one of mg, g/);
  });

  it('knows the units by their usual words', () => {
    expect(
      ['°F', 'fahrenheit', '[degF]', 'FAH', 'UK gal', 'imperial gallon', 'Pounds', 'KGM', 'ML', 'fl. oz. US'].map((word) =>
        unitCalled(word),
      ),
    ).toEqual(['degF', 'degF', 'degF', 'degF', 'uk-gal', 'uk-gal', 'lb', 'kg', 'ml', 'us-fl-oz'].map((unit) => ({ unit })));
  });

  it('refuses what is no figure, below absolute zero, and a weight below nothing', () => {
    for (const bad of [NaN, Infinity, '', 'abc', '1e5', 1e16, null, '1'.repeat(100_000)])
      expect(asked(bad, 'g', 'kg')).toMatch(/^value: a number, or decimal text/);
    expect(asked(-500, 'degF', 'degC')).toMatch(/^value: a temperature not below absolute zero/);
    expect(asked('-459.67', 'degF', 'K')).toMatchObject({ exact: '0' });
    expect(asked(-1, 'g', 'kg')).toMatch(/^value: zero or more/);
    expect(asked(1, 'g', 'kg', { places: 13 })).toMatch(/^places: /);
  });
});
