import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, delivered, g, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const lot = uuid(0xe01);
function used(grams: string | null) {
  const book = bakehouse();
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  );
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  book.record(
    'weighed-in',
    { make, lines: [{ material: materials.flour, lot, quantity: grams === null ? null : g(grams), how: 'weighed', type: 'ingredient' }] },
    { at: night('02:05') },
  );
  const count = (figure: string, time: string) =>
    book.record('lot-counted', { lot, place: null, quantity: { figure, unit: 'kg' } }, { at: night(time) }).outcome['difference'];
  return { book, count };
}

describe('a count', () => {
  it('closes a balance that had gone below zero, and says by how much', () => {
    const { count } = used('25300');
    expect(count('0.1', '03:00')).toBe(400_000);
    expect(count('0.1', '04:00')).toBe(0);
  });

  it('finds 90 g missing', () => {
    expect(used('19550').count('5.36', '03:00')).toBe(-90_000);
  });

  it('says nothing about a difference where a use was not weighed', () => {
    expect(used(null).count('5.36', '03:00')).toBeNull();
  });

  it('nor where some of several lots went, and nobody knows of which', () => {
    const { book, count } = used('5000');
    const other = uuid(0xe02);
    book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(other, materials.flour)] },
      { at: night('02:30') },
    );
    const payload = { channel: 'waste' as const, customer: null, unattended: false, until: null };
    book.record('sent-out', { ...payload, lines: [{ lots: [lot, other], quantity: g('1000'), how: 'estimated' }] }, { at: night('02:40') });
    expect(count('19', '03:00')).toBeNull();
    expect(count('19', '03:10')).toBe(0);
  });

  it('does not look ahead, nor at what it corrects', () => {
    const { book, count } = used('5000');
    expect(count('25', '01:30')).toBe(0);
    const id = book.all('counted')[0]?.id ?? '';
    const again = book.record(
      'lot-counted',
      { lot, place: null, quantity: { figure: '24.9', unit: 'kg' } },
      { at: night('01:30'), corrects: id, words: { reason: 'misread' } },
    );
    expect(again.outcome['difference']).toBe(-100_000);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each<[string, Partial<PayloadFor<'lot-counted'>>]>([
    ['unknown-lot', { lot: uuid(0xfff) }],
    ['unknown-place', { place: uuid(0xfff) }],
    ['unacceptable-value', { quantity: { figure: '1', unit: 'aw' } }],
  ])('is refused as %s', (problem, of) => {
    expect(used('1').book.refusal('lot-counted', { lot, place: null, quantity: g('1'), ...of }, { at: night('03:00') }).problem).toBe(
      problem,
    );
  });
});
