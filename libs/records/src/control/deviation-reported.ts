import { decided, id, missingWord, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { reportedKnown, reportedNeeds } from './subjects.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { namesFood, subjectType } from '../rows/control.js';
import { pointClass } from '../rows/point-fields.js';

/** A report says neither which food stood there, or was read with it, nor when: to take the word for a hold would be to say that something is on hold while nothing is. */
const holdsByName =
  'false about a place, an instrument or the site, which put nothing on hold; put the food on hold by its name (hold-placed with its lot), or the place with all that was there (place-put-on-hold), then report this';

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
        'puts the food that it is about on hold; refused about a place (a vessel too: its content is a lot), an instrument or the site, where nothing would be put on hold: use hold-placed with the lots, or place-put-on-hold',
    }),
  }),
  outcome: z.strictObject({}),
  examples: [{ subjectType: 'site', subject: '0190a6d0-7b3c-7000-8000-000000000001', class: 'oprp', holds: false }],
  needs: (p) => reportedNeeds(p.subjectType, p.subject),
  decide(entry, state) {
    const { subjectType: type, subject, holds } = entry.payload;
    if (!reportedKnown(state, type, subject)) return refuse('unknown-subject', 'payload.subject');
    if (holds && !namesFood(type)) return refuse('unacceptable-value', 'payload.holds', holdsByName);
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
        // An earlier record may say it of a place all the same, and holds as little.
        holds: p.holds && namesFood(p.subjectType),
        point: null,
        lot: null,
        doneBy: doneBy ?? stamp.person,
        at,
      },
    },
  ],
});
