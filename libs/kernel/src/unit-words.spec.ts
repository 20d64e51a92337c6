import { describe, expect, it } from '@jest/globals';
import { unitCalled, unitOr } from './unit-words.js';
import { unitNames } from './units.js';

describe('words for units', () => {
  it.each([
    ['degC', ['degC', '°C', 'C', 'c', 'celsius', 'Celsius', '℃', 'ºC', '° C', 'deg C', 'deg. C', 'degrees Celsius', 'CEL']],
    ['degF', ['degF', '°F', 'F', 'f', 'fahrenheit', '℉', 'deg F', 'degrees Fahrenheit', '[degF]']],
    ['lb', ['lb', 'lbs', 'pound', 'Pounds', 'LBR']],
    ['oz', ['oz', 'ounce', 'ounces', 'ONZ']],
    ['kg', ['kg', 'Kg', 'KG', 'kilo', 'kilograms', 'KGM']],
    ['uk-gal', ['gal_uk', 'uk gal', 'UK gallons', 'imperial gallon', 'gal (UK)', 'galUK', 'ukgal', 'gal. UK', 'GLI']],
    ['us-gal', ['gal_us', 'US gal', 'us_gallon', 'gal (US)', 'usgal']],
    ['uk-fl-oz', ['fl oz (UK)', 'floz_uk', 'fl. oz. UK']],
    ['l', ['l', 'L', 'litre', 'liters']],
  ] as const)('%s is written %j', (unit, words) => {
    expect(words.map(unitCalled)).toEqual(words.map(() => ({ unit })));
  });

  it('every unit is called by its own name', () => {
    expect(unitNames.map((name) => unitOr(name))).toEqual(unitNames);
  });

  it.each([
    ['gallon', 'uk-gal or us-gal'],
    ['pint', 'uk-pint or us-pint'],
    ['cup', 'us-cup'],
    ['degrees', 'degC, degF or K'],
    ['constructor', 'one of mg'],
    ['', 'one of mg'],
  ])('does not guess what %s is', (word, acceptable) => {
    expect(unitCalled(word)).toEqual({ acceptable: expect.stringContaining(acceptable) });
  });

  it('leaves what is no word, or none that it knows, for the schema to refuse', () => {
    expect([unitOr(5), unitOr(null), unitOr('furlong'), unitOr(`${' '.repeat(100)}g`)]).toEqual([
      5,
      null,
      'furlong',
      `${' '.repeat(100)}g`,
    ]);
  });
});
