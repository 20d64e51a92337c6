import { canonicalInteger, decided, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';

/** A lot is emptied or taken off a station: mixes there no longer use it. The amount left, where somebody checked. */
export const lotEmptied = defineKind({
  name: 'lot-emptied',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A lot was emptied',
  official: 'Lot emptied',
  words: ['note'],
  payload: z.strictObject({ station: id, lot: id, left: observed.nullable() }),
  outcome: z.strictObject({ name: z.string(), leftMg: canonicalInteger.nullable() }),
  examples: [
    { station: '0190a6d0-7b3c-7000-8000-0000000000a3', lot: '0190a6d0-7b3c-7000-8000-0000000000b1', left: { figure: '0', unit: 'kg' } },
  ],
  needs: (p) => [
    { in: 'place', id: p.station },
    { in: 'lot', id: p.lot },
  ],
  then: (p, state) => quantityNeeds(state, p.left, [p.lot]),
  decide({ payload: p, at }, state) {
    if (!state.get('place', p.station)) return refuse('unknown-place', 'payload.station');
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    const left = quantityOf(state, p.left, { lots: [lot], at }, 'payload.left');
    return left.ok ? decided({ name: lot.name, leftMg: left.value.mg }) : left;
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    { in: 'emptied', id: root, row: { station: p.station, lot: p.lot, at, leftMg: o.leftMg } },
  ],
});
