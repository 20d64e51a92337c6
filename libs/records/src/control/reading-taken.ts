import { decided, id, observed, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { judged, judgeNeeds, judgeTaken, readingRows } from './judged.js';
import { subjectNeed, subjectKnown } from './subjects.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { subjectType } from '../rows/control.js';
import { measured } from '../rows/point-fields.js';

/** A value as observed, judged at once against the point that it was taken for. What is outside, and of a point, opens a deviation. */
export const readingTaken = defineKind({
  name: 'reading-taken',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A reading was taken',
  official: 'Reading',
  words: ['note'],
  payload: z
    .strictObject({
      subjectType,
      subject: id,
      point: id.nullable(),
      measured,
      parameter: z.string().max(80),
      instrument: id.nullable(),
      value: observed.nullable(),
      yes: z.boolean().nullable(),
      /** How long it was held, where that counts. */
      seconds: z.int().nonnegative().nullable(),
    })
    .refine((p) => (p.value === null) !== (p.yes === null), { message: 'a value, or yes or no: one of the two', path: ['value'] }),
  outcome: judged,
  examples: [
    {
      subjectType: 'load',
      subject: '0190a6d0-7b3c-7000-8000-0000000000f1',
      point: '0190a6d0-7b3c-7000-8000-0000000000f2',
      measured: 'core',
      parameter: 'core temperature',
      instrument: null,
      value: { figure: '94.4', unit: 'degC' },
      yes: null,
      seconds: null,
    },
  ],
  needs: (p) => [subjectNeed(p.subjectType, p.subject), ...judgeNeeds(p)],
  decide({ payload: p }, state, { previous }) {
    if (!subjectKnown(state, p.subjectType, p.subject)) return refuse('unknown-subject', 'payload.subject');
    const found = judgeTaken(p, state, previous && { taken: previous.payload, judged: previous.outcome }, 'payload');
    return found.ok ? decided(found.value) : found;
  },
  rows: ({ payload, root, at, doneBy, corrects }, outcome, stamp): Change[] =>
    readingRows(root, payload, outcome, { at, doneBy: doneBy ?? stamp.person, corrected: corrects !== undefined }),
});
