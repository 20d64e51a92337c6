import { describe, expect, it } from '@jest/globals';
import { isWeakPin, pinForm } from './weak-pin.js';

describe('a PIN that somebody tries first', () => {
  it.each([
    '0000',
    '777777',
    '1234',
    '4321',
    '7890',
    '8901',
    '2468',
    '8642',
    '1357',
    '1212',
    '123123',
    '1122',
    '112233',
    '1987',
    '2011',
    '2580',
    '0852',
    '12345678',
  ])('%s is weak', (pin) => {
    expect(isWeakPin(pin)).toBe(true);
  });

  it.each(['20261128', '28111999'])('%s is a date', (pin) => {
    expect(isWeakPin(pin)).toBe(true);
  });

  it.each(['7291', '4071', '1235', '583920', '1342', '9417', '80417', '19871'])('%s is not', (pin) => {
    expect(isWeakPin(pin)).toBe(false);
  });

  it('leaves most of the ten thousand', () => {
    const weak = Array.from({ length: 10_000 }, (_, n) => String(n).padStart(4, '0')).filter(isWeakPin);
    // 10 of one digit, 40 runs by one and by two, 90 ABAB, 90 AABB, 120 years, two columns of keys; 2020 is ABAB too and 1975 a run down by two
    expect(weak).toHaveLength(10 + 40 + 90 + 90 + 120 + 2 - 2);
  });
});

describe('the form of a PIN', () => {
  it.each([
    ['123', false],
    ['1234', true],
    ['12345678', true],
    ['123456789', false],
    ['12a4', false],
    ['١٢٣٤', false],
    [' 1234', false],
  ])('%s: %s', (pin, fits) => {
    expect(pinForm.test(pin)).toBe(fits);
  });
});
