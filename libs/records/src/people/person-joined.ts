import { decided, missingWord } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';

/** Somebody joins. Joining allows nothing by itself: roles do. The name is a word, so that it can be withheld later. */
export const personJoined = defineKind({
  name: 'person-joined',
  version: 1,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I add this person',
  permission: 'manage.people',
  phrase: 'A person joined',
  official: 'Person joined',
  words: ['name'],
  payload: z.strictObject({}),
  outcome: z.strictObject({}),
  examples: [{}],
  needs: () => [],
  decide: (entry) => missingWord(entry, 'name', 'the name by which people here know them') ?? decided({}),
  rows: ({ root, at, word }) => [{ in: 'person', id: root, row: { name: word('name'), joinedAt: at } }],
});
