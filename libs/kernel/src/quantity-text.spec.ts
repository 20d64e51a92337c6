import { describe, expect, it } from '@jest/globals';
import { celsiusText, countText, minutesText, observedText, quantityText, secondsText, unitText } from './quantity-text.js';
import { unitCalled } from './unit-words.js';
import { unitNames } from './units.js';

describe('a figure and its unit', () => {
  it.each([
    ['94.4', 'degC', '94.4 °C'],
    ['199.4', 'degF', '199.4 °F'],
    ['5.4', 'pH', 'pH 5.4'],
    ['0.95', 'aw', 'aw 0.95'],
    ['90', 'min', '90 min'],
    ['465', 'g', '465 g'],
    ['85', 'percent', '85 %'],
    ['12', 'piece', '12 pieces'],
    ['1', 'piece', '1 piece'],
    ['2', 'uk-pint', '2 UK pt'],
    ['7', 'furlong', '7 furlong'],
    ['7', null, '7'],
  ])('%s in %s is %s', (figure, unit, text) => {
    expect(quantityText(figure, unit)).toBe(text);
  });

  it('writes each unit so that it is read as that unit again', () => {
    expect(unitNames.map((name) => unitCalled(unitText(name)))).toEqual(unitNames.map((unit) => ({ unit })));
  });

  it('gives thousandths of a degree as degrees', () => {
    expect([94_400, -18_000, 0].map(celsiusText)).toEqual(['94.4 °C', '-18 °C', '0 °C']);
  });
});

describe('a number of things', () => {
  it.each([
    [0, '0 lots'],
    [1, '1 lot'],
    [2, '2 lots'],
    [1204, '1,204 lots'],
  ])('%s', (n, text) => {
    expect(countText(n, 'lot')).toBe(text);
  });

  it('takes an irregular plural', () => {
    expect([1, 2].map((n) => countText(n, 'batch', 'batches'))).toEqual(['1 batch', '2 batches']);
  });
});

describe('a length of time', () => {
  it('is told in minutes where it is whole minutes', () => {
    expect([300, 60, 30, 90, 0].map(secondsText)).toEqual(['5 min', '1 min', '30 s', '90 s', '0 s']);
  });

  it('hours and minutes, and neither where there is none', () => {
    expect([0, 1, 59, 60, 61, 1_440, 1_505].map(minutesText)).toEqual([
      '0 minutes',
      '1 minute',
      '59 minutes',
      '1 hour',
      '1 hour 1 minute',
      '24 hours',
      '25 hours 5 minutes',
    ]);
  });
});

describe('what was observed', () => {
  const none = { figure: null, unit: null, yes: null };
  it.each([
    [{ ...none, figure: '5.4', unit: 'pH' }, 'pH 5.4'],
    [{ ...none, figure: '96.8', unit: 'degC', seconds: 30 }, '96.8 °C, held 30 s'],
    [{ ...none, figure: '140', unit: 'min', seconds: null }, '140 min'],
    [{ ...none, yes: true }, 'yes'],
    [{ ...none, yes: false }, 'no'],
    [none, 'no value'],
  ])('%j is said as %s', (observed, text) => {
    expect(observedText(observed)).toBe(text);
  });
});
