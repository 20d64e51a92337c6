import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { subjectKnown, subjectNeed } from './subjects.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { namesFood, subjectType } from '../rows/control.js';
import { pointClass } from '../rows/plan-content.js';

/** Somebody reports a deviation in their own words: a broken glass, a tray on the floor, a fridge left open. It may hold the food that it is about. */
export const deviationReported = defineKind({
  name: 'deviation-reported',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A deviation was reported',
  official: 'Deviation reported',
  words: ['what'],
  payload: z.strictObject({
    subjectType,
    subject: id,
    class: pointClass,
    holds: z.boolean().meta({
      description:
        'puts the food that it is about on hold; about a place, an instrument or the site, nothing is put on hold: use hold-placed with the lots',
    }),
  }),
  outcome: z.strictObject({}),
  examples: [{ subjectType: 'site', subject: '0190a6d0-7b3c-7000-8000-000000000001', class: 'oprp', holds: false }],
  needs: (p) => [subjectNeed(p.subjectType, p.subject)],
  decide(entry, state) {
    if (!subjectKnown(state, entry.payload.subjectType, entry.payload.subject)) return refuse('unknown-subject', 'payload.subject');
    return missingWord(entry, 'what', 'what happened, in a few words') ?? decided({});
  },
  rows: ({ payload: p, root, at, doneBy, word }, _o, stamp): Change[] => [
    {
      in: 'deviation',
      id: root,
      row: {
        subjectType: p.subjectType,
        subject: p.subject,
        type: 'deviation-reported',
        class: p.class,
        summary: word('what'),
        holds: p.holds && namesFood(p.subjectType),
        point: null,
        lot: null,
        doneBy: doneBy ?? stamp.person,
        at,
      },
    },
  ],
});
