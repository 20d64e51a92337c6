import { calendarDay, decided, missingWord } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/**
 * Contents of old records of one kind were withheld from this book, by age. Only the command that does it records it, in the same transaction;
 * no role may. `words.reason` says why. It makes no rows: it tells what is not there any more.
 */
export const bodiesWithheld = defineKind({
  name: 'bodies-withheld',
  version: 1,
  book: 'either',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'withhold',
  phrase: 'Contents of old records were withheld',
  official: 'Record contents withheld by age',
  payload: z.strictObject({
    kind: z.string().max(60),
    /** Of chains whose last record was received before this day began. */
    before: calendarDay,
    bodies: z.int().positive(),
  }),
  outcome: z.strictObject({}),
  examples: [{ kind: 'reading-taken', before: '2020-01-01', bodies: 12 }],
  needs: () => [],
  decide: (entry) => missingWord(entry, 'reason', 'why they are withheld') ?? decided({}),
  rows: () => [],
});
