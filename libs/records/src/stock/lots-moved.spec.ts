import { lookupOf } from '@bakehouse/views';
import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { movedTo } from './moved-to.js';
import { bakehouse, delivered, materials, night, places, row } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const lot = uuid(0xe01);
const why = { reason: 'a slip' };
type Moved = PayloadFor<'lots-moved'>;
const line: Moved['lines'][number] = { lot, from: null, quantity: null, how: 'estimated' };
const payload: Moved = { to: places.porch, lines: [line] };
function house() {
  const book = bakehouse();
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  );
  return book;
}

describe('lots that are carried elsewhere', () => {
  it('stand where they were carried last, all or some of them, and were nowhere said before', () => {
    const book = house();
    book.record('lots-moved', payload, { at: night('02:00') });
    const some: Moved['lines'] = [{ lot, from: places.porch, quantity: { figure: '2.5', unit: 'kg' }, how: 'weighed' }];
    book.record('lots-moved', { to: places.mixer, lines: some }, { at: night('03:00') });
    expect(book.all('moved').map((m) => [m.fromPlace, m.toPlace, m.mg, m.pieces])).toEqual([
      [null, places.porch, null, null],
      [places.porch, places.mixer, 2_500_000, null],
    ]);
    const at = (time: string) => movedTo(lookupOf(book.snapshot(), row(time), 'Europe/London').state, lot, row(time));
    expect(at('01:59')).toBeNull();
    expect(at('02:30')).toMatchObject({ place: places.porch, since: row('02:00'), some: false });
    expect(at('03:30')).toMatchObject({ place: places.mixer, since: row('03:00'), some: true });
  });

  it('stand where the correction says, and where they stood before once it is withdrawn', () => {
    const book = house();
    const first = book.record('lots-moved', payload, { at: night('02:00') });
    book.record('lots-moved', { ...payload, to: places.mixer }, { at: night('02:00'), corrects: first.id, words: why });
    expect(book.all('moved')).toMatchObject([{ toPlace: places.mixer }]);
    book.record('entry-withdrawn', {}, { at: night('02:10'), corrects: first.id, words: why });
    expect(book.all('moved')).toEqual([]);
  });

  it.each<[string, Partial<Moved>]>([
    ['unknown-place', { to: uuid(0xfff) }],
    ['unknown-lot', { lines: [{ ...line, lot: uuid(0xfff) }] }],
    ['unknown-place', { lines: [{ ...line, from: uuid(0xfff) }] }],
    ['unacceptable-value', { lines: [{ ...line, quantity: { figure: '1', unit: 'h' } }] }],
    ['unacceptable-value', { lines: [{ ...line, quantity: { figure: '0', unit: 'kg' } }] }],
  ])('are refused as %s', (problem, of) => {
    expect(house().refusal('lots-moved', { ...payload, ...of }, { at: night('02:00') }).problem).toBe(problem);
  });
});
