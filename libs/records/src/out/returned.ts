import { canonicalInteger, decided, how, id, observed, refuse, moreThanNothing } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Need } from '../base/state.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { returnedDisposition } from '../rows/out.js';

/** Goods that a customer, a round or a stall returned, and their use. */
export const goodsReturned = defineKind({
  name: 'goods-returned',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Goods were returned',
  official: 'Returned goods',
  words: ['note'],
  payload: z.strictObject({
    lot: id,
    departure: id.nullable(),
    customer: id.nullable(),
    quantity: observed,
    how,
    disposition: returnedDisposition,
  }),
  outcome: z.strictObject({ mg: canonicalInteger.nullable(), pieces: z.int().nullable() }),
  examples: [
    {
      lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
      departure: null,
      customer: null,
      quantity: { figure: '6', unit: 'piece' },
      how: 'counted',
      disposition: 'waste',
    },
  ],
  needs: (p): Need[] => [
    { in: 'lot', id: p.lot },
    ...(p.departure === null ? [] : [{ in: 'departure', id: p.departure } satisfies Need]),
    ...(p.customer === null ? [] : [{ in: 'party', by: 'party', value: p.customer } satisfies Need]),
  ],
  then: (p, state) => quantityNeeds(state, p.quantity, [p.lot]),
  decide({ payload: p, at }, state) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (p.departure !== null && state.get('departure', p.departure)?.lot !== p.lot) return refuse('unknown-lot', 'payload.departure');
    if (p.customer !== null && state.find('party', 'party', p.customer).length === 0) return refuse('unknown-party', 'payload.customer');
    const amount = moreThanNothing(quantityOf(state, p.quantity, { lots: [lot], at }, 'payload.quantity'), 'payload.quantity');
    return amount.ok ? decided(amount.value) : amount;
  },
  rows: ({ payload: p, root, at }, o, { book: site }) => [
    {
      in: 'returned',
      id: root,
      row: {
        lot: p.lot,
        departure: p.departure,
        customer: p.customer,
        pieces: o.pieces,
        mg: o.mg,
        how: p.how,
        disposition: p.disposition,
        site,
        at,
      },
    },
  ],
});
