import { amountOf, canonicalInteger, decided, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { leftOf, movementsUntil } from '../standing/left-of.js';
import { countsOf } from '../standing/surely-gone.js';
import { defineKind } from '../base/kind.js';
import type { Change, Row, State } from '../base/state.js';

/** What is really there of a lot. It closes the balance: the difference from the records is stated, whichever way it goes. */
export const lotCounted = defineKind({
  name: 'lot-counted',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A lot was counted',
  official: 'Stock count',
  words: ['note'],
  payload: z.strictObject({ lot: id, place: id.nullable(), quantity: observed }),
  /** Difference: counted less what the records said, as known when it was counted; null where they could not say. */
  outcome: z.strictObject({
    name: z.string(),
    mg: canonicalInteger.nullable(),
    pieces: z.int().nullable(),
    difference: canonicalInteger.nullable(),
  }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', place: null, quantity: { figure: '5.36', unit: 'kg' } }],
  needs: (p) => [
    { in: 'lot', id: p.lot },
    ...(p.place === null ? [] : [{ in: 'place' as const, id: p.place }]),
    { in: 'flow', by: 'source', value: p.lot },
    { in: 'flow', by: 'target', value: p.lot },
    { in: 'departure', by: 'lot', value: p.lot },
    { in: 'returned', by: 'lot', value: p.lot },
    { in: 'counted', by: 'lot', value: p.lot },
    { in: 'makeEnded', by: 'make', value: p.lot },
  ],
  decide({ payload: p, root, at }, state) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (p.place !== null && !state.get('place', p.place)) return refuse('unknown-place', 'payload.place');
    const counted = amountOf(p.quantity, { densityMgPerMl: null }, 'payload.quantity');
    if (!counted.ok) return counted;
    const unit = counted.value.mg === null ? ('pieces' as const) : ('mg' as const);
    const expected = leftOf(lot[unit], movementsUntil(rowsOf(state, p.lot, root), at), unit);
    const found = counted.value[unit];
    return decided({ name: lot.name, ...counted.value, difference: expected === null || found === null ? null : found - expected });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    { in: 'counted', id: root, row: { lot: p.lot, place: p.place, mg: o.mg, pieces: o.pieces, at } },
  ],
});

/** What went as one of several lots left this one by nobody knows how much. */
const asKnown = (d: Row<'departure'>): Row<'departure'> => (d.certain ? d : { ...d, mg: null, pieces: null });

function rowsOf(state: State, lot: string, root: string) {
  return {
    into: state.find('flow', 'target', lot),
    out: state.find('flow', 'source', lot),
    departures: state.find('departure', 'lot', lot).map(asKnown),
    returned: state.find('returned', 'lot', lot),
    counts: countsOf(state, lot).filter((c) => c.id !== root),
  };
}
