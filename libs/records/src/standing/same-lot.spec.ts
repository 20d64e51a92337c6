import { describe, expect, it } from '@jest/globals';
import { workingSetOf } from '../base/snapshot.js';
import { delivered, g, materials, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { lot, withFlour } from '../../../../test/fixtures/with-flour.js';
import { leftOf } from './left-of.js';
import { movementNeeds, movementsOf } from './lot-rows.js';

describe('what is left of a lot', () => {
  const withUnnamed = () => {
    const n = withFlour();
    const weighed = n.weigh([n.line({ lot: null })]).id;
    const unnamed = n.book.all('lot').find((l) => l.type === 'placeholder')?.id ?? '';
    const left = (of = lot) =>
      leftOf(25_000_000, movementsOf(workingSetOf(n.book.snapshot()), of, null, { oneOfSeveral: 'left-out' }), 'mg');
    const same = (as: string, time: string, which = unnamed) =>
      n.book.record('lot-identified', { lot: which, code: null, same: as, delivery: null }, { at: night(time) });
    const came = (of: string, more: Parameters<typeof delivered>[2] = {}) =>
      n.book.record(
        'delivery-received',
        { supplier: null, noteNumber: null, photo: null, unattended: true, lines: [delivered(of, materials.flour, more)] },
        { at: night('01:10') },
      );
    return { ...n, weighed, unnamed, left, same, came };
  };

  it('is less by what was used of one that turned out to be it, and less of no other once that is another', () => {
    const n = withUnnamed();
    const other = uuid(0xe02);
    n.came(other);
    expect([n.left(), n.left(other)]).toEqual([25_000_000, 25_000_000]);
    n.same(lot, '03:00');
    expect([n.left(), n.left(other)]).toEqual([23_000_000, 25_000_000]);
    n.same(other, '03:10');
    expect([n.left(), n.left(other)]).toEqual([25_000_000, 23_000_000]);
  });

  it('is known still where the use of one that turned out to be it is withdrawn: nothing came of that', () => {
    const n = withUnnamed();
    n.same(lot, '03:00');
    expect(n.left()).toBe(23_000_000);
    n.book.record('entry-withdrawn', {}, { at: night('03:10'), corrects: n.weighed, words: { reason: 'another make' } });
    expect(n.left()).toBe(25_000_000);
  });

  it('is more by what came of goods that turned out to be it, and not known where nobody knows how much that was', () => {
    const n = withUnnamed();
    const [porch, more] = [uuid(0xe02), uuid(0xe03)];
    const unknown = { code: null, codeState: 'not-known-yet' } as const;
    n.came(porch, { ...unknown, quantity: g('10000') });
    n.weigh([n.line({ lot: porch, quantity: g('4000') })], { at: night('02:10') });
    n.same(lot, '03:00', porch);
    expect(n.left()).toBe(31_000_000);
    // It may have been named in two steps.
    n.same(porch, '03:01');
    expect(n.left()).toBe(29_000_000);
    n.book.record('lot-counted', { lot, place: null, quantity: g('28000') }, { at: night('03:05') });
    expect(n.left()).toBe(28_000_000);
    n.book.record(
      'delivery-received',
      {
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: true,
        lines: [delivered(more, materials.flour, { ...unknown, quantity: null })],
      },
      { at: night('03:10') },
    );
    n.same(lot, '03:20', more);
    expect(n.left()).toBeNull();
  });

  it('asks for the rows of all that turned out to be it, and ends where they are each other', () => {
    const n = withUnnamed();
    n.same(lot, '03:00');
    const state = workingSetOf(n.book.snapshot());
    expect(movementNeeds(state, lot)).toContainEqual({ in: 'flow', by: 'source', value: n.unnamed });
    n.same(n.unnamed, '03:10', lot);
    expect(n.left()).toBe(23_000_000);
  });
});
