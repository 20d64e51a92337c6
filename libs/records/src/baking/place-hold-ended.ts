import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/** A place that was on hold may be used again, signed. It covers what comes there from then on: the food that was there stays on hold until it is decided on. */
export const placeHoldEnded = defineKind({
  name: 'place-hold-ended',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'This place may be used again from now on',
  permission: 'decide.exception',
  phrase: 'A place on hold may be used again',
  official: 'Hold on a place ended',
  words: ['why'],
  payload: z.strictObject({ hold: id }),
  outcome: z.strictObject({ place: id }),
  examples: [{ hold: '0190a6d0-7b3c-7000-8000-0000000000f4' }],
  needs: (p) => [
    { in: 'placeHold', id: p.hold },
    { in: 'placeHoldEnded', by: 'hold', value: p.hold },
  ],
  decide(entry, state) {
    const { payload: p, root, at } = entry;
    const hold = state.get('placeHold', p.hold);
    if (!hold) return refuse('unknown-hold', 'payload.hold');
    if (state.find('placeHoldEnded', 'hold', p.hold).some((e) => e.id !== root)) return refuse('already-lifted', 'payload.hold');
    if (at < hold.begins) return refuse('unacceptable-value', 'payload.hold', 'a hold that had begun by then');
    return missingWord(entry, 'why', 'what was done, and why the place may be used again') ?? decided({ place: hold.place });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    { in: 'placeHoldEnded', id: root, row: { held: 'place', hold: p.hold, place: o.place, at } },
  ],
});
