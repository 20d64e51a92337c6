import { describe, expect, it } from '@jest/globals';
import { shelvesText } from './shelves-text.js';

describe('where customers may take a lot', () => {
  it('is nothing where it stands nowhere, and a sentence for the shop and each counter, with what to do', () => {
    expect(shelvesText({ inShop: null, onCounter: [] })).toEqual([]);
    const onCounter = [{ site: 'a', siteName: 'Harbour Steps', since: '2026-11-25T06:00:00.000Z', pieces: null }];
    expect(shelvesText({ inShop: { shop: null, amount: 12, measure: 'pieces' }, onCounter })).toEqual([
      'in the shop: 12 pieces, take them off the counter',
      'on the counter at Harbour Steps: number not known, take them off',
    ]);
  });
});
