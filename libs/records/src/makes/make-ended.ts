import { canonicalInteger, decided, how, id, observed, refuse, sumOfKnown } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { eachAmountOnce } from '../rows/stock.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';

/** A make came to its end: what there is of it, beside what went in. The difference is shown: lost in cooking, left in the bowl, or a slip. */
export const makeEnded = defineKind({
  name: 'make-ended',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A mix was ended',
  official: 'Production run ended',
  words: ['note'],
  payload: z.strictObject({ make: id, quantity: observed.nullable(), how }),
  /** In: the sum of what went in, null where one line has no weight. Lost: in less out; may be below zero. */
  outcome: z.strictObject({ mg: canonicalInteger.nullable(), inMg: canonicalInteger.nullable(), lostMg: canonicalInteger.nullable() }),
  examples: [{ make: '0190a6d0-7b3c-7000-8000-0000000000e1', quantity: { figure: '8796', unit: 'g' }, how: 'weighed' }],
  needs: (p): Need[] => [
    { in: 'make', id: p.make },
    { in: 'lot', id: p.make },
    { in: 'flow', by: 'target', value: p.make },
  ],
  then: (p, state) => quantityNeeds(state, p.quantity, [p.make]),
  decide({ payload: p, at }, state) {
    if (!state.get('make', p.make)) return refuse('unknown-make', 'payload.make');
    const amount = quantityOf(state, p.quantity, { lots: [state.get('lot', p.make)], at }, 'payload.quantity');
    if (!amount.ok) return amount;
    const { mg } = amount.value;
    const inMg = sumOfKnown(eachAmountOnce(state.find('flow', 'target', p.make)).map((f) => f.mg));
    return decided({ mg, inMg, lostMg: mg === null || inMg === null ? null : inMg - mg });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [{ in: 'makeEnded', id: root, row: { make: p.make, mg: o.mg, how: p.how, at } }],
});
