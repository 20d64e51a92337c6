import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, delivered, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

describe('a lot that is used up', () => {
  const lot = uuid(0xe01);
  const book = bakehouse();
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  );
  const payload: PayloadFor<'lot-emptied'> = { station: places.mixer, lot, left: { figure: '0.3', unit: 'kg' } };

  it('says what is left where somebody looked', () => {
    book.record('lot-emptied', payload, { at: night('02:00') });
    book.record('lot-emptied', { ...payload, left: null }, { at: night('03:00') });
    expect(book.all('emptied').map((e) => e.leftMg)).toEqual([300_000, null]);
  });

  it.each<[string, Partial<PayloadFor<'lot-emptied'>>]>([
    ['unknown-place', { station: uuid(0xfff) }],
    ['unknown-lot', { lot: uuid(0xfff) }],
    ['unacceptable-value', { left: { figure: '1', unit: 'h' } }],
  ])('is refused as %s', (problem, of) => {
    expect(book.refusal('lot-emptied', { ...payload, ...of }, { at: night('02:00') }).problem).toBe(problem);
  });
});
