import { canonicalInteger, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { dateType, formulaType } from './formula-content.js';
import { atPlace, atStation } from './sites.js';

/** One run that makes a lot (same id): a starter refresh, a preferment, a dough, a custard, a filling. */
export const make = collection(
  'make',
  z.object({
    formula: id,
    formulaVersion: id,
    formulaName: z.string(),
    type: formulaType,
    station: id.nullable(),
    plan: id.nullable(),
    plannedMg: canonicalInteger.nullable(),
    scalePpm: z.int().nullable(),
    bakeDay: z.iso.date(),
    /** Where it was made: by the plan in force there it is judged past its life. */
    site: id,
    at: instant,
    doneBy: id.nullable(),
  }),
  { by: ['formula', 'bakeDay'], along: [atStation] },
);
export const frictionCause = z.strictObject({
  what: z.enum(['fast-minutes', 'slow-minutes', 'size-percent']),
  actual: z.int(),
  planned: z.int(),
});
export type FrictionCause = z.infer<typeof frictionCause>;
/** Mixed: minutes by speed, the temperatures behind the friction factor, and the factor itself in thousandths of a C difference. */
export const mixed = collection(
  'mixed',
  z.object({
    make: id,
    minutesSlow: z.int().nullable(),
    minutesFast: z.int().nullable(),
    waterMilli: canonicalInteger.nullable(),
    flourMilli: canonicalInteger.nullable(),
    roomMilli: canonicalInteger.nullable(),
    doughMilli: canonicalInteger.nullable(),
    frictionMilli: canonicalInteger.nullable(),
    expectedFrictionMilli: canonicalInteger.nullable(),
    /** What may explain a factor far from the expected one, most telling first: what was done and what was planned. */
    causes: z.array(frictionCause),
    at: instant,
  }),
  { by: ['make'] },
);
/** A departure from the formula for this one make, allowed by somebody. */
export const oneOff = collection(
  'one_off',
  z.object({ make: id, change: z.string().nullable(), material: id.nullable(), instead: id.nullable(), at: instant }),
  { by: ['make'] },
);
/** A make that came to its end: what it weighed. */
export const makeEnded = collection('make_ended', z.object({ make: id, mg: canonicalInteger.nullable(), how: z.string(), at: instant }), {
  by: ['make'],
  visibleTo: 'organisation',
});
/** How one make was divided: runs beside, scrap and old dough kept. Differences are shown, not hidden. */
export const divided = collection(
  'divided',
  z.object({
    make: id,
    /** What there was to divide, as somebody weighed it; null where nobody did. */
    weighedMg: canonicalInteger.nullable(),
    /** The same, or else the sum of what had been weighed into the make by then: for the sum alone, never a weight of the whole. */
    inMg: canonicalInteger.nullable(),
    runsMg: canonicalInteger,
    oldDoughMg: canonicalInteger,
    scrapMg: canonicalInteger,
    differenceMg: canonicalInteger.nullable(),
    at: instant,
  }),
  { by: ['make'], visibleTo: 'organisation' },
);
/** Pieces of one product from one make; its lot has the same id. */
export const run = collection(
  'run',
  z.object({
    make: id,
    product: id,
    productName: z.string(),
    heads: z.int().nullable(),
    pieces: z.int(),
    scalingMg: canonicalInteger,
    lifeDays: z.int().nullable(),
    dateType: dateType.nullable(),
    /** What its formula does with it, so that the control points of those steps are asked for. */
    steps: z.array(z.string()),
    at: instant,
  }),
  { by: ['make', 'product'] },
);
export const stageWay = z.enum(['in', 'out', 'once']);
export const stageStep = z.enum(['rest', 'fold', 'prove', 'retard', 'cool', 'freeze', 'cook']);
/** Into or out of a prover, retarder, chiller, freezer or a rest. */
export const stage = collection('stage', z.object({ subject: id, place: id.nullable(), step: stageStep, way: stageWay, at: instant }), {
  by: ['subject'],
  along: [atPlace],
  visibleTo: 'organisation',
});

export const makesRows = { make, mixed, oneOff, makeEnded, divided, run, stage } as const;
