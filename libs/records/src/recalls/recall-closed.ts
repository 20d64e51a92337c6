import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** A case is closed, signed. Holds stay until each is lifted: closing a case frees nothing by itself. */
export const recallClosed = defineKind({
  name: 'recall-closed',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I close this case; what was found and done is recorded',
  permission: 'decide.recall',
  phrase: 'A recall case was closed',
  official: 'Recall case closed',
  words: ['conclusion'],
  payload: z.strictObject({ recall: id }),
  outcome: z.strictObject({}),
  examples: [{ recall: '0190a6d0-7b3c-7000-8000-000000000101' }],
  needs: (p) => [
    { in: 'recallCase', id: p.recall },
    { in: 'recallClosed', by: 'recall', value: p.recall },
  ],
  decide({ payload: p, corrects }, state) {
    if (!state.get('recallCase', p.recall)) return refuse('unknown-recall', 'payload.recall');
    return corrects === undefined && state.find('recallClosed', 'recall', p.recall).length > 0
      ? refuse('unknown-recall', 'payload.recall', 'a case that is still open')
      : decided({});
  },
  rows: ({ payload: p, root, at }) => [{ in: 'recallClosed', id: root, row: { recall: p.recall, at } }],
});
