import { decided, id, missingWord } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** The most texts that one such record names; of more there are further records. */
export const maxErasedAtOnce = 500;

/**
 * Texts beside records of this book were erased, because the person whom they name, or who wrote them, asked for it. It names each text by the record and
 * the field, so that no other may be gone. Only the command that does it records it, in the same transaction; no role may. `words.reason` says why. It
 * makes no rows: what shows the texts shows that they were erased.
 */
export const wordsErased = defineKind({
  name: 'words-erased',
  version: 1,
  book: 'either',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'withhold',
  phrase: 'Somebody’s name or texts were erased',
  official: 'Personal data erased on request',
  payload: z.strictObject({
    /** Whose: a person of the house, or a supplier or customer. */
    of: z.enum(['person', 'party']),
    who: id,
    words: z
      .array(z.strictObject({ field: z.string().max(40), entries: z.array(id).min(1).max(maxErasedAtOnce) }))
      .min(1)
      .max(40),
  }),
  outcome: z.strictObject({}),
  examples: [
    {
      of: 'person',
      who: '0190a6d0-7b3c-7000-8000-000000000003',
      words: [{ field: 'name', entries: ['0190a6d0-7b3c-7000-8000-000000000003'] }],
    },
  ],
  needs: () => [],
  decide: (entry) => missingWord(entry, 'reason', 'why they are erased') ?? decided({}),
  rows: () => [],
});

const inItsPlace: Readonly<Record<string, string>> = {
  'person-joined name': 'a person whose name was erased',
  'party-accepted name': 'name erased, ask an administrator',
  'party-accepted phone': 'number erased',
};

/** What stands in the place of a text of this kind and field once it was erased. */
export const erasedText = (kind: string, field: string): string => inItsPlace[`${kind} ${field}`] ?? 'erased';

/** What stands in the place of its salt: no text opens a commitment with it but by one chance in 2 to the 128th. */
export const noSalt = '0'.repeat(32);
