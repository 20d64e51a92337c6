import { describe, expect, it } from '@jest/globals';
import { initials } from './stamp.js';

describe('the initials in a house’s stamp', () => {
  it.each([
    ['Pellow & Wick Bakehouse', 'PW'],
    ['The Corner Oven', 'CO'],
    ['żuraw', 'Ż'],
    ['1000 loaves', 'L'],
    ['面包', '面'],
    ['24/7', ''],
  ])('of %s are %s', (name, letters) => expect(initials(name)).toBe(letters));
});
