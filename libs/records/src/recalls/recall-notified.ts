import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { notifiedHow, notifiedTo } from '../rows/recalls.js';

/** The authority was told of a case, or a notice to the public was put up: when and how. A practice is practised in the same way. */
export const recallNotified = defineKind({
  name: 'recall-notified',
  version: 1,
  book: 'organisation',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'decide.recall',
  phrase: 'The authority or the public was told of a recall',
  official: 'Notification of the authority or the public',
  words: ['spokeTo', 'reference', 'said'],
  payload: z.strictObject({ recall: id, to: notifiedTo, how: notifiedHow }),
  outcome: z.strictObject({}),
  examples: [{ recall: '0190a6d0-7b3c-7000-8000-000000000101', to: 'authority', how: 'telephone' }],
  needs: (p) => [{ in: 'recallCase', id: p.recall }],
  decide: ({ payload: p }, state) => (state.get('recallCase', p.recall) ? decided({}) : refuse('unknown-recall', 'payload.recall')),
  rows: ({ payload: p, root, at, doneBy }, _o, stamp) => [
    { in: 'recallNotified', id: root, row: { recall: p.recall, to: p.to, how: p.how, at, doneBy: doneBy ?? stamp.person } },
  ],
});
