import { decided, derivedId, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { covers } from '../rows/control.js';
import { concernsOf, standingNeeds } from '../standing/standings.js';

/** Food that was at a place on hold, or came of such food, is used after all: one lot, by its name, signed, with the reason, and what it covers. */
export const foodAtPlaceAccepted = defineKind({
  name: 'food-at-place-accepted',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I accept this food that was at a place on hold',
  permission: 'decide.exception',
  phrase: 'Food that was at a place on hold was accepted',
  official: 'Acceptance of food from a place on hold',
  words: ['why'],
  payload: z.strictObject({ hold: id, lot: id, covers }),
  outcome: z.strictObject({ name: z.string() }),
  examples: [{ hold: '0190a6d0-7b3c-7000-8000-0000000000f4', lot: '0190a6d0-7b3c-7000-8000-0000000000b1', covers: 'what-came-of-it' }],
  needs: (p) => [
    { in: 'placeHold', id: p.hold },
    { in: 'lot', id: p.lot },
  ],
  then: (p, state) => standingNeeds(state, [p.lot]),
  decide(entry, state, { previous }) {
    const { payload: p } = entry;
    const lot = state.get('lot', p.lot);
    if (!state.get('placeHold', p.hold)) return refuse('unknown-hold', 'payload.hold');
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    const same = previous?.payload.lot === p.lot && previous.payload.hold === p.hold;
    if (previous && !same) return refuse('unacceptable-value', 'payload.lot', 'the same lot and hold');
    const reached = (concernsOf(state, [p.lot]).get(p.lot) ?? []).some((r) => r.concern.id === p.hold);
    if (!same && !reached) return refuse('unacceptable-value', 'payload.lot', 'a lot that this hold reaches');
    return missingWord(entry, 'why', 'why it may be used after all') ?? decided({ name: lot.name });
  },
  rows: ({ payload: p, root, at }): Change[] => [
    { in: 'refusalEnded', id: derivedId(root, 'place on hold'), row: { refusal: p.hold, lot: p.lot, covers: p.covers, at } },
  ],
});
