import { decided, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/**
 * Takes back an entry that should never have been made: a double tap, a test, another day's page. The entry stays readable;
 * its rows are gone until a correction of the original kind puts content back, except a deviation that it opened, which only a decision closes, and a lot,
 * which is a placeholder from then on.
 * `corrects` names it, `words.reason` says why.
 */
export const entryWithdrawn = defineKind({
  name: 'entry-withdrawn',
  version: 1,
  book: 'either',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A record was withdrawn',
  official: 'Record withdrawn',
  payload: z.strictObject({}),
  outcome: z.strictObject({}),
  examples: [{}],
  needs: () => [],
  decide: ({ corrects }) => (corrects === undefined ? refuse('malformed', 'corrects', 'the id of the record to withdraw') : decided({})),
  rows: () => [],
});
