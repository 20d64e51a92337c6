import { amountOf, canonicalInteger, decided, id, observed, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change, Need } from '../base/state.js';
import { covers, dispositionChoice } from '../rows/control.js';

const decision = { deviation: id, disposition: dispositionChoice, quantity: observed.nullable() };

/**
 * The disposition of the food of a deviation, or of one lot that came of it. Signed, with its reason: to use the whole of it lets it leave by rule again,
 * and what came of it too where the decision covers that. An amount says that it is about a part only, and then the rest stays held.
 */
export const dispositionDecided = defineKind({
  name: 'disposition-decided',
  version: 2,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I decide this disposition of the food',
  permission: 'decide.exception',
  phrase: 'A disposition was decided',
  official: 'Disposition',
  words: ['note'],
  payload: z.strictObject({
    ...decision,
    /** A lot that came of what the deviation is about; null for what it is about. */
    lot: id.nullable(),
    covers,
  }),
  upcast: { 1: upcaster(z.strictObject(decision), (same) => ({ ...same, lot: null, covers: 'what-came-of-it' })) },
  outcome: z.strictObject({ subject: id, mg: canonicalInteger.nullable(), pieces: z.int().nullable() }),
  examples: [
    {
      deviation: '0190a6d0-7b3c-7000-8000-0000000000f5',
      lot: null,
      disposition: 'destroyed',
      covers: 'this-alone',
      quantity: { figure: '12', unit: 'piece' },
    },
  ],
  needs: (p) => [{ in: 'deviation', id: p.deviation }, ...(p.lot === null ? [] : [{ in: 'lot', id: p.lot } satisfies Need])],
  decide({ payload: p }, state) {
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    if (p.lot !== null && !state.get('lot', p.lot)) return refuse('unknown-lot', 'payload.lot');
    const amount = amountOf(p.quantity, { densityMgPerMl: null }, 'payload.quantity');
    return amount.ok ? decided({ subject: p.lot ?? deviation.subject, ...amount.value }) : amount;
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    {
      in: 'disposition',
      id: root,
      row: { deviation: p.deviation, subject: o.subject, disposition: p.disposition, covers: p.covers, pieces: o.pieces, mg: o.mg, at },
    },
  ],
});
