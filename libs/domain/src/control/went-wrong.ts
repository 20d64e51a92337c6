import * as z from 'zod';
import { id } from '../kernel/fields.js';
import { decided, defineKind } from '../kernel/kind.js';
import { refuse } from '../kernel/problems.js';
import { missingWord } from '../kernel/required-word.js';
import type { Change } from '../kernel/state.js';
import { pointClass } from '../plans/content.js';
import { subjectSort } from './collections.js';
import { subjectKnown, subjectNeed } from './subjects.js';

/** Somebody says that something went wrong, in their own words: a broken glass, a tray on the floor, a fridge left open. It may hold what it is about. */
export const wentWrong = defineKind({
  name: 'went-wrong',
  version: 1,
  book: 'site',
  sort: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'Something went wrong',
  words: ['what'],
  payload: z.strictObject({ subjectSort, subject: id, class: pointClass, holds: z.boolean() }),
  outcome: z.strictObject({}),
  examples: [{ subjectSort: 'site', subject: '0190a6d0-7b3c-7000-8000-000000000001', class: 'should', holds: false }],
  needs: (p) => [subjectNeed(p.subjectSort, p.subject)],
  decide(entry, state) {
    if (!subjectKnown(state, entry.payload.subjectSort, entry.payload.subject)) return refuse('unknown-subject', 'payload.subject');
    return missingWord(entry, 'what', 'what went wrong, in a few words') ?? decided({});
  },
  rows: ({ payload: p, root, at, doneBy, word }, _o, stamp): Change[] => [
    {
      in: 'deviation',
      id: root,
      row: {
        subjectSort: p.subjectSort,
        subject: p.subject,
        sort: 'went-wrong',
        class: p.class,
        summary: word('what'),
        holds: p.holds,
        point: null,
        doneBy: doneBy ?? stamp.person,
        at,
      },
    },
  ],
});
