import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { actionType } from '../rows/control.js';

/** A corrective action for a deviation. With a reading within the limit after it, a value outside is answered. */
export const correctiveActionTaken = defineKind({
  name: 'corrective-action-taken',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'Corrective action was taken',
  official: 'Corrective action',
  words: ['action'],
  payload: z.strictObject({ deviation: id, type: actionType }),
  outcome: z.strictObject({ subject: id }),
  examples: [{ deviation: '0190a6d0-7b3c-7000-8000-0000000000f5', type: 'back-in-the-oven' }],
  needs: (p) => [{ in: 'deviation', id: p.deviation }],
  decide(entry, state) {
    const deviation = state.get('deviation', entry.payload.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    const missing = entry.payload.type === 'other' ? missingWord(entry, 'action', 'what was done, in a few words') : undefined;
    return missing ?? decided({ subject: deviation.subject });
  },
  rows: ({ payload: p, root, at, doneBy, word }, o, stamp): Change[] => [
    {
      in: 'correctiveAction',
      id: root,
      row: {
        deviation: p.deviation,
        subject: o.subject,
        action: word('action'),
        type: p.type,
        at,
        doneBy: doneBy ?? stamp.person,
      },
    },
  ],
});
