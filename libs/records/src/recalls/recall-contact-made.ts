import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import { contactAnswer } from '../rows/recalls.js';

/** A customer or an authority was rung: reached or not, and what they still have. What was said is a word. */
export const recallContactMade = defineKind({
  name: 'recall-contact-made',
  version: 1,
  book: 'organisation',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A recall contact was made',
  official: 'Recall communication',
  words: ['said', 'spokeTo'],
  payload: z.strictObject({
    recall: id,
    party: id,
    answer: contactAnswer,
    piecesHeld: z.int().nonnegative().nullable(),
  }),
  outcome: z.strictObject({}),
  examples: [
    { recall: '0190a6d0-7b3c-7000-8000-000000000101', party: '0190a6d0-7b3c-7000-8000-0000000000a2', answer: 'told', piecesHeld: 12 },
  ],
  needs: (p) => [
    { in: 'recallCase', id: p.recall },
    { in: 'party', by: 'party', value: p.party },
  ],
  decide({ payload: p }, state) {
    if (!state.get('recallCase', p.recall)) return refuse('unknown-recall', 'payload.recall');
    return state.find('party', 'party', p.party).length > 0 ? decided({}) : refuse('unknown-party', 'payload.party');
  },
  rows: ({ payload: p, root, at, doneBy }, _o, stamp) => [
    {
      in: 'recallContact',
      id: root,
      row: {
        recall: p.recall,
        party: p.party,
        answer: p.answer,
        piecesHeld: p.piecesHeld,
        at,
        doneBy: doneBy ?? stamp.person,
      },
    },
  ],
});
