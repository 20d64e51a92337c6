import { describe, expect, it } from '@jest/globals';
import { surelyGone, workingSetOf } from '@bakehouse/records';
import { bakehouse, delivered, materials, night, places, row } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const flour = uuid(0xe01);

/** A house to which 25 kg of one flour came, and that opened some at the mixer. */
function house() {
  const book = bakehouse();
  const lines = [delivered(flour, materials.flour)];
  book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
  const open = (station: string, time: string) =>
    book.record('lot-opened', { station, material: materials.flour, lot: flour, beside: false }, { at: night(time) });
  const emptied = (station: string, time: string) =>
    book.record('lot-emptied', { station, lot: flour, left: { figure: '0', unit: 'g' } }, { at: night(time) });
  const gone = (): boolean => surelyGone(workingSetOf(book.snapshot()), flour, row('09:00'));
  open(places.mixer, '01:10');
  return { book, open, emptied, gone };
}

describe('a lot of which nothing is left at a station', () => {
  it('may stand in the store, in another sack', () => {
    const { emptied, gone } = house();
    emptied(places.mixer, '02:00');
    expect(gone()).toBe(false);
  });

  it('is open at another station, whichever was told first', () => {
    for (const first of [true, false]) {
      const { open, emptied, gone } = house();
      if (first) open(places.porch, '01:20');
      emptied(places.mixer, '02:00');
      if (!first) open(places.porch, '01:20');
      expect(gone()).toBe(false);
    }
  });

  it('is gone when a count of the whole site found nothing', () => {
    const { book, emptied, gone } = house();
    emptied(places.mixer, '02:00');
    book.record('lot-counted', { lot: flour, place: null, quantity: { figure: '0', unit: 'kg' } }, { at: night('03:00') });
    expect(gone()).toBe(true);
  });
});
