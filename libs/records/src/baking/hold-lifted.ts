import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/** A hold is lifted, with the reason, signed. What a recall case holds is no such hold: it is decided on in that case alone. */
export const holdLifted = defineKind({
  name: 'hold-lifted',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I lift this hold',
  permission: 'decide.exception',
  phrase: 'A hold was lifted',
  official: 'Hold lifted',
  words: ['why'],
  payload: z.strictObject({ hold: id }),
  outcome: z.strictObject({ lot: id }),
  examples: [{ hold: '0190a6d0-7b3c-7000-8000-0000000000f4' }],
  needs: (p) => [
    { in: 'hold', id: p.hold },
    { in: 'holdLifted', by: 'hold', value: p.hold },
  ],
  decide(entry, state) {
    const { payload: p, root } = entry;
    const hold = state.get('hold', p.hold);
    if (!hold) return refuse('unknown-hold', 'payload.hold');
    if (state.find('holdLifted', 'hold', p.hold).some((f) => f.id !== root)) return refuse('already-lifted', 'payload.hold');
    return missingWord(entry, 'why', 'why it may be used again') ?? decided({ lot: hold.lot });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [{ in: 'holdLifted', id: root, row: { hold: p.hold, lot: o.lot, at } }],
});
