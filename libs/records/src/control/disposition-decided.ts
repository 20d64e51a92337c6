import { amountOf, canonicalInteger, decided, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { dispositionChoice } from '../rows/control.js';

/**
 * The disposition of the food of a deviation. Signed: to use the whole of it lets it leave by rule again. An amount says that it is about
 * part of it only, and then the rest stays held.
 */
export const dispositionDecided = defineKind({
  name: 'disposition-decided',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I decide this disposition of the food',
  permission: 'decide.exception',
  phrase: 'A disposition was decided',
  official: 'Disposition',
  words: ['note'],
  payload: z.strictObject({ deviation: id, disposition: dispositionChoice, quantity: observed.nullable() }),
  outcome: z.strictObject({ subject: id, mg: canonicalInteger.nullable(), pieces: z.int().nullable() }),
  examples: [{ deviation: '0190a6d0-7b3c-7000-8000-0000000000f5', disposition: 'destroyed', quantity: { figure: '12', unit: 'piece' } }],
  needs: (p) => [
    { in: 'deviation', id: p.deviation },
    { in: 'deviationClosed', by: 'deviation', value: p.deviation },
  ],
  decide({ payload: p }, state) {
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    if (state.find('deviationClosed', 'deviation', p.deviation).length > 0) return refuse('already-closed', 'payload.deviation');
    const amount = amountOf(p.quantity, { densityMgPerMl: null }, 'payload.quantity');
    return amount.ok ? decided({ subject: deviation.subject, ...amount.value }) : amount;
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    {
      in: 'disposition',
      id: root,
      row: { deviation: p.deviation, subject: o.subject, disposition: p.disposition, pieces: o.pieces, mg: o.mg, at },
    },
  ],
});
