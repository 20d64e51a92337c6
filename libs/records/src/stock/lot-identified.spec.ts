import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, delivered, g, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const [unnamed, known] = [uuid(0xe01), uuid(0xe02)];
function withUnnamed() {
  const book = bakehouse();
  const come = (line: PayloadFor<'delivery-received'>['lines'][number]) =>
    book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: true, lines: [line] },
      { at: night('01:00') },
    ).id;
  come(delivered(unnamed, materials.flour, { code: null, codeState: 'not-known-yet' }));
  const delivery = come(delivered(known, materials.flour));
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  book.record(
    'weighed-in',
    { make, lines: [{ material: materials.flour, lot: unnamed, quantity: g('2000'), how: 'weighed', type: 'ingredient' }] },
    { at: night('02:05') },
  );
  return { book, make, delivery };
}
const name = { lot: unnamed, code: 'E7731', same: null, delivery: null };

describe('naming a lot', () => {
  it('keeps its code and its delivery beside the lot, which stays as it was', () => {
    const { book, delivery } = withUnnamed();
    expect(book.record('lot-identified', { ...name, delivery }, { at: night('09:15') }).outcome).toEqual({
      name: 'white flour',
      trouble: null,
      usedIn: [],
    });
    expect(book.all('lotIdentified').map((i) => [i.lot, i.code, i.delivery])).toEqual([[unnamed, 'E7731', delivery]]);
  });

  it('as one that is held tells the make that it went into', () => {
    const { book, make } = withUnnamed();
    book.record('hold-placed', { lot: known, deviation: null }, { at: night('08:00') });
    book.record('lot-identified', { ...name, code: null, same: known }, { at: night('09:15') });
    expect(book.all('deviation').map((d) => [d.subject, d.type])).toEqual([[make, 'held-lot-used']]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each<[string, Record<string, unknown>, string]>([
    ['a lot that is not there', { lot: uuid(0xfff) }, 'unknown-lot'],
    ['a known lot that is not there', { same: uuid(0xfff) }, 'unknown-lot'],
    ['a delivery that is not there', { delivery: uuid(0xfff) }, 'unknown-delivery'],
    ['neither code nor lot', { code: null }, 'malformed'],
    ['itself', { same: unnamed }, 'malformed'],
  ])('is refused for %s', (_case, of, problem) => {
    expect(withUnnamed().book.refusal('lot-identified', { ...name, ...of }, { at: night('09:15') }).problem).toBe(problem);
  });

  it('is refused for what is made here', () => {
    const { book, make } = withUnnamed();
    expect(book.refusal('lot-identified', { ...name, lot: make }, { at: night('09:15') })).toMatchObject({
      problem: 'unacceptable-value',
      field: 'payload.lot',
    });
  });
});
