import { canonicalInteger, decided, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { leftByPlace } from '../standing/left-of.js';
import { movementNeeds, movementsOf, placeOf, standsTogether } from '../standing/lot-rows.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';

/**
 * What is really there of a lot at this site. It closes the site's balance: the difference from the records is stated, whichever way it goes. Of a place that
 * is named it says what is there: the counts of all places that the lot was carried to close the balance together, and nothing found there closes none.
 */
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
  needs: (p) => [...(p.place === null ? [] : [{ in: 'place' as const, id: p.place }]), { in: 'lot', id: p.lot }],
  then: (p, state) => [...movementNeeds(state, p.lot), ...quantityNeeds(state, p.quantity, [p.lot])],
  decide({ payload: p, root, at }, state, { stamp }) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (p.place !== null && !state.get('place', p.place)) return refuse('unknown-place', 'payload.place');
    const counted = quantityOf(state, p.quantity, { lots: [lot], at }, 'payload.quantity');
    if (!counted.ok) return counted;
    const unit = counted.value.mg === null ? ('pieces' as const) : ('mg' as const);
    const movements = movementsOf(state, p.lot, at, { oneOfSeveral: 'unknown', except: root });
    const here = p.place === null || standsTogether(state, p.lot, at);
    const expected = here ? leftByPlace(lot[unit], movements, unit)[placeOf(state, p.lot, stamp.book)] : null;
    const found = counted.value[unit];
    return decided({ name: lot.name, ...counted.value, difference: expected === null || found === null ? null : found - expected });
  },
  rows: ({ payload: p, root, at }, o, { book: site }): Change[] => [
    { in: 'counted', id: root, row: { lot: p.lot, place: p.place, mg: o.mg, pieces: o.pieces, site, at } },
  ],
});
