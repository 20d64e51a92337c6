import { describe, expect, it } from '@jest/globals';
import { concernsOf, workingSetOf } from '@bakehouse/records';
import { bakehouse, delivered, g, lead, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const lot = uuid(0xe01);
function withLot() {
  const book = bakehouse();
  const delivery = book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  ).id;
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  const line = { material: materials.flour, lot, quantity: g('2000'), how: 'weighed', type: 'ingredient' } as const;
  const use = () => book.record('weighed-in', { make, lines: [line] }, { at: night('02:05') });
  const withdraw = () => book.record('entry-withdrawn', {}, { at: night('03:00'), corrects: delivery, words: { reason: 'typed twice' } });
  const types = () => [lot, make].map((of) => (concernsOf(workingSetOf(book.snapshot()), [of]).get(of) ?? []).map((r) => r.concern.type));
  return { book, use, withdraw, types };
}
const accept = { lot, covers: 'this-alone' } as const;
const by = { at: night('04:00'), person: lead };

describe('a lot whose record was withdrawn', () => {
  it.each([
    ['after it was used', ['use', 'withdraw']],
    ['before it was used', ['withdraw', 'use']],
  ] as const)('%s stays as a placeholder with its name, and speaks against what came of it', (_when, order) => {
    const of = withLot();
    for (const step of order) of[step]();
    expect(of.book.get('lot', lot)).toMatchObject({ type: 'withdrawn', name: 'white flour' });
    expect(of.types()).toEqual([['withdrawn'], ['withdrawn']]);
    expect(of.book.rebuilt()).toEqual(of.book.snapshot());
  });

  it('and with which nothing was done speaks against nothing, and cannot be accepted', () => {
    const { book, withdraw, types } = withLot();
    withdraw();
    expect(types()).toEqual([[], []]);
    expect(book.refusal('withdrawn-lot-accepted', accept, { ...by, words: { why: 'x' } })).toMatchObject({
      problem: 'unacceptable-value',
      field: 'payload.lot',
    });
  });

  it('is accepted with a reason, for itself or for what was made of it too', () => {
    const { book, use, withdraw, types } = withLot();
    use();
    withdraw();
    expect(book.refusal('withdrawn-lot-accepted', accept, by)).toMatchObject({ field: 'words.why' });
    const { id } = book.record('withdrawn-lot-accepted', accept, { ...by, words: { why: 'it is what came' } });
    expect(types()).toEqual([[], ['withdrawn']]);
    const words = { why: 'it is what came', reason: 'the dough as well' };
    book.record('withdrawn-lot-accepted', { lot, covers: 'what-came-of-it' }, { ...by, corrects: id, words });
    expect(types()).toEqual([[], []]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each([
    ['unknown-lot', { lot: uuid(0xfff) }],
    ['unacceptable-value', { lot: uuid(0xe02) }],
  ] as const)('is refused with %s where it is another lot', (problem, of) => {
    const { book, use, withdraw } = withLot();
    book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(uuid(0xe02), materials.flour)] },
      { at: night('01:00') },
    );
    use();
    withdraw();
    expect(book.refusal('withdrawn-lot-accepted', { ...accept, ...of }, { ...by, words: { why: 'x' } }).problem).toBe(problem);
  });
});
