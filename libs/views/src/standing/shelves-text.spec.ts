import { describe, expect, it } from '@jest/globals';
import { shelvesText } from './shelves-text.js';

describe('where customers may take a lot', () => {
  it('is nothing where it stands nowhere, and a sentence for the shop and each counter, with what to do where it has to come off', () => {
    expect(shelvesText({ inShop: null, onCounter: [] }, true)).toEqual([]);
    const onCounter = [{ site: 'a', siteName: 'Harbour Steps', since: '2026-11-25T06:00:00.000Z', pieces: null }];
    const there = { inShop: { shop: null, amount: 12, measure: 'pieces' as const }, onCounter };
    expect(shelvesText(there, true)).toEqual([
      'in the shop: 12 pieces, take them off the counter',
      'on the counter at Harbour Steps: number not known, take them off',
    ]);
    expect(shelvesText(there, false)).toEqual(['in the shop: 12 pieces', 'on the counter at Harbour Steps: number not known']);
  });
});
