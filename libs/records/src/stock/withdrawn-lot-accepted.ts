import { decided, derivedId, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { covers } from '../rows/control.js';
import { withdrawnAt, withdrawnNeeds } from '../standing/withdrawn.js';

/**
 * A lot was used although the record that it came with was withdrawn, and may be: signed, with the reason, by somebody who decides about affected food. For
 * the lot alone, or for what was made of it as well.
 */
export const withdrawnLotAccepted = defineKind({
  name: 'withdrawn-lot-accepted',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I accept this lot whose record was withdrawn',
  permission: 'decide.exception',
  phrase: 'A lot whose record was withdrawn was accepted',
  official: 'Acceptance of a lot whose record was withdrawn',
  words: ['why'],
  payload: z.strictObject({ lot: id, covers }),
  outcome: z.strictObject({ name: z.string(), ends: id }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', covers: 'this-alone' }],
  needs: (p) => [{ in: 'lot', id: p.lot }],
  then: (p, state) => withdrawnNeeds(state, p.lot),
  decide(entry, state, { previous }) {
    const { payload: p } = entry;
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (previous && previous.payload.lot !== p.lot) return refuse('unacceptable-value', 'payload.lot', 'the same lot');
    const ends = previous?.outcome.ends ?? withdrawnAt(state, p.lot);
    if (ends === null) return refuse('unacceptable-value', 'payload.lot', 'a lot that was used although its record was withdrawn');
    return missingWord(entry, 'why', 'why it may be used after all') ?? decided({ name: lot.name, ends });
  },
  rows: ({ payload: p, root, at }, o) => [
    { in: 'refusalEnded', id: derivedId(root, 'withdrawn'), row: { refusal: o.ends, lot: p.lot, covers: p.covers, at } },
  ],
});
