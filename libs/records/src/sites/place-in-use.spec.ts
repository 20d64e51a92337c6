import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { placeInUse } from './place-in-use.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [store, fridge, tub, van] = [testId(0x21), testId(0x22), testId(0x23), testId(0x24)];
const since = '2026-01-01T00:00:00.000Z';
const house = (): House =>
  new House([
    { in: 'place', id: store, row: { name: 'Store', type: 'store', within: null, since } },
    { in: 'place', id: fridge, row: { name: 'Fridge 1', type: 'fridge', within: store, since } },
    { in: 'place', id: tub, row: { name: 'Tub', type: 'vessel', within: fridge, since } },
    { in: 'place', id: van, row: { name: 'Old van', type: 'van', within: null, since } },
    { in: 'placeOut', id: testId(0x25), row: { place: van, at: '2026-11-01T00:00:00.000Z' } },
  ]);
const payload: PayloadFor<'place-in-use'> = { name: 'Crate', type: 'vessel', within: null };

describe('place-in-use', () => {
  it.each([
    ['nothing', null],
    ['a store', store],
    ['a fridge in a store', fridge],
  ])('stands within %s', (_what, within) => {
    const placed = house().recorded(placeInUse, { payload: { ...payload, within } });
    expect(placed.rows).toEqual([{ in: 'place', id: placed.id, row: { ...payload, within, since: '2026-11-25T04:40:00.000Z' } }]);
  });

  it.each([
    ['a place that nobody knows', testId(99), 'unknown-place'],
    ['a place that is out of use', van, 'unknown-place'],
    ['a tub in a fridge in a store', tub, 'unacceptable-value'],
  ])('is refused within %s', (_what, within, problem) => {
    expect(house().record(placeInUse, { payload: { ...payload, within } })).toMatchObject({ problem, field: 'payload.within' });
  });

  it('a correction cannot put a place inside itself, at once or by way of what stands in it', () => {
    const h = house();
    const room = h.recorded(placeInUse, { payload: { ...payload, type: 'store' } });
    const shelf = h.recorded(placeInUse, { payload: { ...payload, within: room.id } });
    expect(h.record(placeInUse, { payload: { ...payload, within: room.id }, replaces: room })).toMatchObject({ problem: 'unknown-place' });
    expect(h.record(placeInUse, { payload: { ...payload, within: shelf.id }, replaces: room })).toMatchObject({
      problem: 'unacceptable-value',
    });
    expect(h.record(placeInUse, { payload: { ...payload, within: store }, replaces: room }).ok).toBe(true);
  });
});
