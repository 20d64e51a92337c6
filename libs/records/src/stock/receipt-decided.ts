import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { refusalNeeds, refusalsOf } from '../standing/refusals.js';
import { targetNeeds, use, usedDeviations, usedIn, wentAnywhere, wentNeeds } from './used-in.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { receiptChoice } from '../rows/stock.js';

/**
 * Whether goods that came in may be used. A lot that is refused after it was used opens a deviation on everything that it went into. A refusal stands: only
 * the person who typed it by mistake corrects it, before anything of the lot went anywhere; else to use the goods is a signed decision of its own.
 */
export const receiptDecided = defineKind({
  name: 'receipt-decided',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'decide.goods',
  phrase: 'A receipt decision was made',
  official: 'Receipt decision',
  words: ['condition', 'note'],
  payload: z.strictObject({ lot: id, decision: receiptChoice }),
  outcome: z.strictObject({ name: z.string(), usedIn: z.array(use) }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', decision: 'accepted' }],
  needs: (p) => [{ in: 'lot', id: p.lot }, ...wentNeeds(p.lot), ...refusalNeeds(p.lot)],
  then: (p, state) => targetNeeds(state, p.lot),
  decide(entry, state, { previous, stamp }) {
    const { payload: p } = entry;
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    const cameIn = lot.type === 'received' || lot.type === 'placeholder';
    if (!cameIn) return refuse('unacceptable-value', 'payload.lot', 'a lot that came in; what is made here is held or lifted');
    if (previous?.payload.decision === 'refused' && previous.payload.lot !== p.lot)
      return refuse('unacceptable-value', 'payload.lot', 'the same lot: a refusal is not moved to another');
    const frees =
      p.decision !== 'refused' && previous?.payload.decision !== 'accepted' && previous?.payload.decision !== 'accepted-with-condition';
    const slip = previous !== undefined && previous.person === stamp.person && !wentAnywhere(state, p.lot);
    if (frees && refusalsOf(state, p.lot).some((r) => r.id !== entry.root || !slip)) return refuse('refusal-stands', 'payload.decision');
    const missing = p.decision === 'accepted-with-condition' ? missingWord(entry, 'condition', 'the condition, in a few words') : undefined;
    return missing ?? decided({ name: lot.name, usedIn: p.decision === 'refused' ? usedIn(state, p.lot) : [] });
  },
  rows: ({ payload: p, root, at, word }, o): Change[] => [
    { in: 'receiptDecision', id: root, row: { lot: p.lot, decision: p.decision, condition: word('condition'), at } },
    ...usedDeviations(o.usedIn, { root, type: 'refused-lot-used', lot: p.lot, name: o.name, at }),
  ],
});
