import { describe, expect, it } from '@jest/globals';
import { allergensSaidAt, amountsLeftAt, isLeft, placesSaid } from '../support/places-said.js';

describe('every place', () => {
  const { allergens, amounts } = placesSaid();

  it('that says what is in something is listed with what holds it against the truth', () => {
    expect(allergens).toEqual(Object.keys(allergensSaidAt).sort());
  });

  it('that says how much of a lot is left is listed with what holds it against the truth', () => {
    expect(amounts.filter(isLeft)).toEqual(Object.keys(amountsLeftAt).sort());
  });
});
