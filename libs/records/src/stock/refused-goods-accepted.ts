import { decided, derivedId, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { refusalNeeds, refusalsOf } from '../standing/refusals.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { covers } from '../rows/control.js';
import { receiptChoice } from '../rows/stock.js';

/**
 * Goods that were refused are used after all: signed, with the reason, by somebody who decides about affected food. It ends the refusals on record then, for
 * the lot alone or for what was made of it in the meantime as well.
 */
export const refusedGoodsAccepted = defineKind({
  name: 'refused-goods-accepted',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I accept these goods that were refused',
  permission: 'decide.exception',
  phrase: 'Goods that were refused were accepted',
  official: 'Acceptance of refused goods',
  words: ['why', 'condition'],
  payload: z.strictObject({ lot: id, decision: receiptChoice.exclude(['refused']), covers }),
  outcome: z.strictObject({ name: z.string(), refusals: z.array(id) }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', decision: 'accepted', covers: 'this-alone' }],
  needs: (p) => [{ in: 'lot', id: p.lot }, ...refusalNeeds(p.lot)],
  decide(entry, state, { previous }) {
    const { payload: p } = entry;
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (previous && previous.payload.lot !== p.lot) return refuse('unacceptable-value', 'payload.lot', 'the same lot');
    const refusals = previous?.outcome.refusals ?? refusalsOf(state, p.lot).map((r) => r.id);
    if (refusals.length === 0) return refuse('unacceptable-value', 'payload.lot', 'a lot that was refused: decide on its receipt instead');
    return (
      (p.decision === 'accepted-with-condition' ? missingWord(entry, 'condition', 'the condition, in a few words') : undefined) ??
      missingWord(entry, 'why', 'why it may be used after all') ??
      decided({ name: lot.name, refusals })
    );
  },
  rows: ({ payload: p, root, at, word }, o): Change[] => [
    { in: 'receiptDecision', id: root, row: { lot: p.lot, decision: p.decision, condition: word('condition'), at } },
    ...o.refusals.map((refusal): Change => ({
      in: 'refusalEnded',
      id: derivedId(root, `refusal ${refusal}`),
      row: { refusal, lot: p.lot, covers: p.covers, at },
    })),
  ],
});
