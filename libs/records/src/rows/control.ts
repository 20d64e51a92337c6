import { canonicalInteger, collection, figure, id, instant, unit } from '@bakehouse/kernel';
import * as z from 'zod';
import { finding } from './baking.js';
import { limit, measured, pointClass } from './point-fields.js';
import { atPlace, ofInstrument } from './sites.js';

/** What a reading, a miss or a deviation is about. */
export const subjectType = z.enum(['make', 'load', 'run', 'batch', 'lot', 'delivery', 'place', 'instrument', 'site']);
export type SubjectType = z.infer<typeof subjectType>;
/** Whether a record about this names food, so that it can put some on hold. What stood at a place, or was read with an instrument, is put on hold by its own name. */
export const namesFood = (type: SubjectType): boolean => type !== 'place' && type !== 'instrument' && type !== 'site';
export const verdict = z.enum(['within', 'outside', 'unsure', 'not-believable', 'no-limit']);
export type Verdict = z.infer<typeof verdict>;

/** A value as observed, with the limit, plan, instrument state and rule that its verdict used. */
export const reading = collection(
  'reading',
  z.object({
    subjectType,
    subject: id,
    point: id.nullable(),
    pointKey: z.string().nullable(),
    measured,
    parameter: z.string(),
    figure: figure.nullable(),
    unit: unit.nullable(),
    milli: canonicalInteger.nullable(),
    yes: z.boolean().nullable(),
    seconds: z.int().nullable(),
    verdict,
    class: pointClass.nullable(),
    judgedBy: limit.nullable(),
    instrument: id.nullable(),
    halfWidthMilli: canonicalInteger,
    rule: z.int(),
    at: instant,
    doneBy: id.nullable(),
    corrected: z.boolean(),
  }),
  {
    by: ['subject'],
    along: [ofInstrument, ['class', 'verdict']],
    visibleTo: 'organisation',
  },
);
export const notTakenAnswer = z.enum(['not-done', 'not-needed', 'not-known']);
export type NotTakenAnswer = z.infer<typeof notTakenAnswer>;
/** Three different answers where no value was taken. */
export const readingNotTaken = collection(
  'reading_not_taken',
  z.object({ subjectType, subject: id, point: id, pointKey: z.string(), answer: notTakenAnswer, at: instant }),
  { by: ['subject'] },
);
/** A deviation: opened by rule or by a person, answered, closed by decision. It stays even if the entry that opened it is withdrawn. */
export const deviation = collection(
  'deviation',
  z.object({
    subjectType,
    subject: id,
    type: z.enum([
      'limit',
      'not-taken',
      'held-lot-used',
      'refused-lot-used',
      'expired-lot-used',
      'past-life-used',
      'rework-against-rule',
      'found-after-release',
      'not-released',
      'dated-too-far',
      'deviation-reported',
    ]),
    class: pointClass,
    summary: z.string().nullable(),
    holds: z.boolean(),
    /** The control point it was found at, and who did what it is about: for its answer, and to say when somebody reviews themselves. */
    point: id.nullable(),
    doneBy: id.nullable(),
    /** The lot that should not have been used, where it is about a use. */
    lot: id.nullable(),
    at: instant,
  }),
  { by: ['subject'], stays: {}, visibleTo: 'organisation' },
);
export const actionType = z.enum(['back-in-the-oven', 'cooled-again', 'set-aside', 'adjusted', 'repaired', 'told-somebody', 'other']);
export const correctiveAction = collection(
  'corrective_action',
  z.object({ deviation: id, subject: id, action: z.string().nullable(), type: actionType, at: instant, doneBy: id.nullable() }),
  { by: ['deviation', 'subject'], visibleTo: 'organisation' },
);
export const dispositionChoice = z.enum([
  'accepted-for-use',
  'accepted-after-correction',
  'reworked',
  'destroyed',
  'returned-to-supplier',
  'feed',
]);
export type DispositionChoice = z.infer<typeof dispositionChoice>;
/** What a decision about food covers: the thing it names alone, or what was made of it as well. */
export const covers = z.enum(['this-alone', 'what-came-of-it']);
/** The readings and dates that a decision was signed on, by the concerns that rest on them: it covers no other. Empty of a decision from before this was kept. */
export const sawWhat = z.array(z.strictObject({ concern: z.string().max(120), saw: z.string() }));
/** The disposition of the food: of what a deviation is about, or of something that came of it. */
export const disposition = collection(
  'disposition',
  z.object({
    deviation: id,
    subject: id,
    disposition: dispositionChoice,
    covers,
    pieces: z.int().nullable(),
    mg: canonicalInteger.nullable(),
    saw: sawWhat,
    /** What else held it, that it was about as well: worked out of the records, so that no deviation tells of it. */
    findings: z.array(finding),
    at: instant,
  }),
  { by: ['deviation', 'subject'], visibleTo: 'organisation' },
);
export const deviationClosed = collection(
  'deviation_closed',
  z.object({
    deviation: id,
    subject: id,
    selfReview: z.boolean(),
    /** What nobody had decided about: it stays on hold, for the reason that was given. */
    staysOnHold: z.array(id),
    why: z.string().nullable(),
    at: instant,
    closedBy: id,
  }),
  { by: ['deviation', 'subject'], visibleTo: 'organisation' },
);
export const cleanDownType = z.enum(['wet', 'dry', 'allergen-change']);
/** After one of these, what was at a place before can still reach what is made there next, as dust: common practice, no source. */
export const leavesContact = cleanDownType.extract(['dry']).options;
export const cleanDown = collection(
  'clean_down',
  z.object({
    place: id,
    type: cleanDownType,
    chemical: z.string().nullable(),
    dilution: z.string().nullable(),
    contactSeconds: z.int().nullable(),
    name: z.string().nullable(),
    at: instant,
    doneBy: id.nullable(),
  }),
  { by: ['place'], along: [atPlace] },
);

export const controlRows = { reading, readingNotTaken, deviation, correctiveAction, cleanDown, disposition, deviationClosed } as const;
