import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import { inStock } from './in-stock.js';
import { lookupOf } from '../lookup/lookup.js';
import { bakehouse, delivered, materials, night, places, plan, row, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const [flour, salt] = [uuid(0xe01), uuid(0xe02)];

describe('what is in stock', () => {
  it('is what came and is neither used up nor counted to nothing, with where it stands; more gone than came is below zero', () => {
    const book = bakehouse();
    const lines = [delivered(flour, materials.flour), delivered(salt, materials.salt)];
    book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
    const lots = (time: string) => inStock(lookupOf(book.snapshot(), row(time), 'Europe/London'));
    expect(lots('00:59')).toEqual([]);
    expect(
      lots('01:01')
        .map((l) => l.id)
        .sort(),
    ).toEqual([flour, salt]);
    book.record(
      'lots-moved',
      { to: places.porch, lines: [{ lot: flour, from: null, quantity: null, how: 'estimated' }] },
      { at: night('02:00') },
    );
    const waste = { channel: 'waste' as const, customer: null, unattended: false, until: null };
    const gone: PayloadFor<'sent-out'>['lines'] = [{ lots: [flour], quantity: { figure: '26', unit: 'kg' }, how: 'weighed' }];
    book.record('sent-out', { ...waste, lines: gone }, { at: night('02:10') });
    expect(lots('02:11').find((l) => l.id === flour)).toMatchObject({ leftMg: -1_000_000, where: { place: places.porch } });
    book.record('lot-counted', { lot: flour, place: null, quantity: { figure: '0', unit: 'kg' } }, { at: night('03:00') });
    expect(lots('03:01').map((l) => l.id)).toEqual([salt]);
    book.record('lot-emptied', { station: places.mixer, lot: salt, left: null }, { at: night('03:10') });
    expect(lots('03:11')).toEqual([]);
    book.record('lot-opened', { station: places.mixer, material: materials.salt, lot: salt, beside: false }, { at: night('03:20') });
    expect(lots('03:21').map((l) => l.id)).toEqual([salt]);
  });

  it('has every lot that one thing may have been taken of, though each of them had only so much', () => {
    const book = bakehouse();
    const quantity = { figure: '2', unit: 'kg' } as const;
    const lines = [flour, salt].map((lot) => delivered(lot, materials.flour, { quantity }));
    book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = book.record('make-begun', begun, { at: night('01:10') }).id;
    const line = { material: materials.flour, lot: flour, quantity, how: 'weighed', type: 'ingredient' } as const;
    book.record('weighed-in', { make, lines: [{ ...line, orLots: [salt] }] }, { at: night('01:20') });
    const left = inStock(lookupOf(book.snapshot(), row('02:00'), 'Europe/London')).filter((l) => l.type === 'received');
    expect(left.map((l) => [l.id, l.leftMg]).sort()).toEqual([
      [flour, 2_000_000],
      [salt, 2_000_000],
    ]);
  });

  it('has what ran out at its station as long as it is on hold, and not for its date alone: another sack may stand in the store', () => {
    const book = bakehouse();
    book.record(
      'delivery-received',
      {
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: false,
        lines: [delivered(salt, materials.salt, { useBy: '2026-11-20' })],
      },
      { at: night('01:00') },
    );
    book.record('lot-opened', { station: places.mixer, material: materials.salt, lot: salt, beside: false }, { at: night('01:10') });
    book.record('lot-emptied', { station: places.mixer, lot: salt, left: { figure: '0', unit: 'g' } }, { at: night('01:20') });
    const lots = () => inStock(lookupOf(book.snapshot(), row('02:00'), 'Europe/London')).map((l) => l.id);
    expect(lots()).toEqual([]);
    book.record('hold-placed', { lot: salt, deviation: null }, { at: night('01:30'), words: { because: 'a torn sack' } });
    expect(lots()).toEqual([salt]);
  });

  it('says what is past its best-before date, and does not call it trouble', () => {
    const book = bakehouse();
    const lines = [
      delivered(flour, materials.flour, { bestBefore: '2026-11-24' }),
      delivered(salt, materials.salt, { bestBefore: '2026-11-25' }),
    ];
    book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
    const said = inStock(lookupOf(book.snapshot(), row('02:00'), 'Europe/London')).map((l) => [l.id, l.said, l.trouble]);
    expect(said).toEqual(
      expect.arrayContaining([
        [flour, 'past-best-before', null],
        [salt, null, null],
      ]),
    );
  });
});
