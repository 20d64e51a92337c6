import { calendarDay as day, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

/** What goes into an oven together. */
export const load = collection(
  'load',
  z.object({
    oven: id,
    deck: id.nullable(),
    plan: id.nullable(),
    bakeDay: day,
    celsius: z.int().nullable(),
    minutes: z.int().nullable(),
    at: instant,
    doneBy: id.nullable(),
  }),
  {
    by: ['bakeDay'],
    along: [
      ['oven', 'at'],
      ['deck', 'at'],
    ],
    visibleTo: 'organisation',
  },
);
export const loadLine = collection(
  'load_line',
  z.object({ load: id, run: id, product: id, productName: z.string(), pieces: z.int(), oven: id, bakeDay: day, at: instant }),
  // The first load of the day of a product in an oven is read for those after it.
  { by: ['load', 'run', 'bakeDay'], along: [['bakeDay', 'product', 'oven', 'at']], visibleTo: 'organisation' },
);
export const loadStepType = z.enum(['turned', 'out', 'back-in', 'out-again']);
export const loadStep = collection('load_step', z.object({ load: id, step: loadStepType, minutes: z.int().nullable(), at: instant }), {
  by: ['load'],
  visibleTo: 'organisation',
});
/** The pieces of one run that share a lot code: the unit that is released, sent out and recalled. Its lot has the same id. */
export const batch = collection(
  'batch',
  z.object({
    run: id,
    make: id,
    formula: id,
    plan: id.nullable(),
    steps: z.array(z.string()),
    product: id,
    productName: z.string(),
    code: z.string(),
    bakedOn: day,
    bestBefore: day.nullable(),
    useBy: day.nullable(),
    pieces: z.int(),
    rejects: z.int(),
    loads: z.array(id),
    site: id,
    at: instant,
    doneBy: id.nullable(),
  }),
  { by: ['run', 'make', 'product', 'code', 'bakedOn'], visibleTo: 'organisation' },
);
/** What may speak against using or selling a lot, the gravest first. Releases in spite of it store these names; `weigh-again` means *to be confirmed*. */
export const concernType = z.enum([
  'recall',
  'held',
  'place-held',
  'open-deviation',
  'closed-deviation',
  'refused',
  'used-past-use-by',
  'used-past-life',
  'past-life',
  'withdrawn',
  'weigh-again',
  'unsettled',
  'first-load-outside',
  'first-load-not-read',
  'not-read',
  'nothing-weighed-in',
  'more-out-than-in',
  'more-baked-than-divided',
  'counted-twice',
  'code-given-twice',
  'more-gone-than-there-was',
  'more-back-than-sent',
  'used-after-clean-out',
  'rework-against-rule',
]);
export type ConcernType = z.infer<typeof concernType>;
/** One thing that keeps a batch from leaving by rule, or that an exception was signed in spite of. */
export const finding = z.strictObject({
  code: z.enum(['no-plan', 'destroyed', ...concernType.options, 'not-taken', 'lot-not-known']),
  /** What it begins at, which may be far upstream of the batch. */
  subject: id,
  what: z.string().nullable(),
  deviation: id.nullable(),
  /** The concern behind it, or that begins by its release, which a release in spite of it ends for this batch; null where a plan or a lot is missing. */
  concern: z.string().max(120).nullable(),
  /** The readings or the date behind it, as they stood: a release covers no other. Null where it rests on none, and of a release from before this was kept. */
  saw: z.string().nullable(),
});
export type Finding = z.infer<typeof finding>;
export const release = collection(
  'release',
  z.object({ batch: id, way: z.enum(['by-rule', 'by-exception']), rule: z.int(), findings: z.array(finding), at: instant }),
  { by: ['batch'], visibleTo: 'organisation' },
);
/** What a release spoke for: the batch, its run, its make and its loads, so that bad news about one of them finds what already left. */
export const releasedSubject = collection('released_subject', z.object({ batch: id, subject: id, at: instant }), { by: ['subject'] });
export const hold = collection('hold', z.object({ lot: id, because: z.string().nullable(), deviation: id.nullable(), at: instant }), {
  by: ['lot'],
  visibleTo: 'organisation',
});
export const holdLifted = collection('hold_lifted', z.object({ hold: id, lot: id, at: instant }), {
  by: ['hold', 'lot'],
  visibleTo: 'organisation',
});
/** The same in every row: these are few, and are looked up together. */
const heldPlaces = z.enum(['place']);
/** A place, with what stands within it, is on hold for a time, or from then on: food that was there then is, by the records of where it was. */
export const placeHold = collection(
  'place_hold',
  z.object({
    held: heldPlaces,
    place: id,
    placeName: z.string(),
    begins: instant,
    ends: instant.nullable(),
    because: z.string().nullable(),
    at: instant,
  }),
  { by: ['held'], visibleTo: 'organisation' },
);
/** From then on the place may be used again: what comes there later is not on hold for it. */
export const placeHoldEnded = collection('place_hold_ended', z.object({ held: heldPlaces, hold: id, place: id, at: instant }), {
  by: ['held', 'hold'],
  visibleTo: 'organisation',
});

export const bakingRows = {
  load,
  loadLine,
  loadStep,
  batch,
  release,
  releasedSubject,
  hold,
  holdLifted,
  placeHold,
  placeHoldEnded,
} as const;
