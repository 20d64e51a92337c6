import { describe, expect, it } from '@jest/globals';
import { heldFlour } from '../../../../test/fixtures/held-flour.js';

describe('a part of a lot that was accepted for use', () => {
  it('is used without being told, and what is made of it is not on hold; what is more is both', () => {
    const { accept, use, against, flour } = heldFlour();
    accept();
    const [first, second, third] = [use('02:30', '1500'), use('03:00', '500'), use('03:30', '1')];
    expect([first.told, second.told, third.told]).toEqual([[null], [null], ['held-lot-used']]);
    expect([first, second, third].map(({ make }) => against(make))).toEqual([[], [], ['open-deviation']]);
    expect(against(flour)).toEqual(['open-deviation']);
  });

  it('is counted together where an entry uses it in several lines', () => {
    const { accept, use, against } = heldFlour();
    accept();
    const { make, told } = use('02:30', '1500', '600');
    expect([told, against(make)]).toEqual([[null, 'held-lot-used'], ['open-deviation']]);
  });

  it('alone may be used, and what is made of it stays on hold until somebody decides about that', () => {
    const { accept, use, against } = heldFlour('this-alone');
    accept();
    const { make, told } = use('02:30', '1500');
    expect([told, against(make)]).toEqual([[null], ['open-deviation']]);
  });

  it('counts for what was used after it, whichever was recorded first', () => {
    const { accept, use, against } = heldFlour();
    const [before, after] = [use('01:45', '100'), use('02:30', '1500')];
    accept();
    expect([against(before.make), against(after.make)]).toEqual([['open-deviation'], []]);
  });
});
