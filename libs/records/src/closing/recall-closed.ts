import { decided, id, missingWord, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { closedAlready, whatStays } from './what-stays.js';
import { maxLots } from '../rows/recalls.js';
import { defineKind } from '../base/kind.js';
import type { State } from '../base/state.js';
import { downstreamOf, heldBy, heldNeeds } from '../standing/held-by.js';

const closing = { recall: id };

/**
 * A case is closed, signed. To close it frees nothing: what it holds and nobody has decided about stays on hold, and is stated lot by lot, with the reason.
 * Each of these is decided on in the case afterwards.
 */
export const recallClosed = defineKind({
  name: 'recall-closed',
  version: 2,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I close this case; what was found and done is recorded, and what stays on hold is stated',
  permission: 'decide.recall',
  phrase: 'A recall case was closed',
  official: 'Recall case closed',
  words: ['conclusion', 'why'],
  payload: z.strictObject({ ...closing, staysOnHold: z.array(id).max(maxLots) }),
  upcast: { 1: upcaster(z.strictObject(closing), (same) => ({ ...same, staysOnHold: [] })) },
  outcome: z.strictObject({ staysOnHold: z.array(id) }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject({}), () => ({ staysOnHold: [] })) },
  examples: [{ recall: '0190a6d0-7b3c-7000-8000-000000000101', staysOnHold: ['0190a6d0-7b3c-7000-8000-0000000000b1'] }],
  needs: (p) => [
    { in: 'recallCase', id: p.recall },
    { in: 'recallClosed', by: 'recall', value: p.recall },
    { in: 'recallScopeLot', by: 'recall', value: p.recall },
  ],
  then: (p, state) => [
    ...state
      .find('recallClosed', 'recall', p.recall)
      .flatMap((c) => (c.closedBy === null ? [] : [{ in: 'person' as const, id: c.closedBy }])),
    ...heldNeeds(state, begins(state, p.recall)),
  ],
  decide(entry, state, { stamp, previous }) {
    const { payload: p, root } = entry;
    if (!state.get('recallCase', p.recall)) return refuse('unknown-recall', 'payload.recall');
    const [closed] = state.find('recallClosed', 'recall', p.recall).filter((c) => c.id !== root);
    if (closed) return closedAlready(state, 'payload.recall', closed, stamp.zone);
    const food = begins(state, p.recall);
    const stays = whatStays(heldBy(state, [p.recall], food), downstreamOf(state, food), p.staysOnHold, previous?.payload.staysOnHold);
    if (!stays.ok) return stays;
    const why = stays.lots.length > 0 ? missingWord(entry, 'why', 'why they stay on hold') : null;
    return why ?? decided({ staysOnHold: stays.lots });
  },
  rows: ({ payload: p, root, at, word }, o, stamp) => [
    {
      in: 'recallClosed',
      id: root,
      row: { recall: p.recall, staysOnHold: o.staysOnHold, why: word('why'), closedBy: stamp.signature?.person ?? stamp.person, at },
    },
  ],
});

const begins = (state: State, recall: string): string[] =>
  state
    .find('recallScopeLot', 'recall', recall)
    .filter((s) => s.begins)
    .map((s) => s.lot);
