import { lifeRule, loosenedAsApproved, pointLimit, takenBackAs, validated } from '@bakehouse/records';
import * as z from 'zod';
import { doubtView } from './doubt.js';
import { inspectedDisposition } from './inspected-disposition.js';
import { count, happened, told, who } from './inspected-fields.js';
import { batchStanding, heldLot } from './standing.js';

const instant = z.iso.datetime();

const day = z.iso.date();

export const inspectedReading = z
  .object({
    id: z.uuid(),
    subject: z.uuid(),
    subjectType: z.string(),
    subjectName: z.string().nullable(),
    ...told,
    point: z.string().nullable(),
    parameter: z.string(),
    measured: z.string(),
    figure: z.string().nullable(),
    unit: z.string().nullable(),
    yes: z.boolean().nullable(),
    seconds: count,
    limit: pointLimit.nullable(),
    verdict: z.string(),
    doubt: doubtView.nullable(),
    class: z.string().nullable(),
    instrument: z.string().nullable(),
    halfWidthMilli: z.int(),
    corrected: z.boolean(),
  })
  .meta({ id: 'InspectedReading' });
export type InspectedReading = z.infer<typeof inspectedReading>;

export const inspectedPlan = z
  .object({
    id: z.uuid(),
    name: z.string(),
    number: z.int(),
    everySite: z.boolean(),
    from: instant,
    until: instant.nullable(),
    signedBy: who,
    signedAt: instant.nullable(),
    meaning: z.string().nullable(),
    scope: z.string(),
    team: z.string(),
    pastLife: z.object({ opened: lifeRule, madeHere: lifeRule }),
    points: z.array(
      z.object({
        key: z.string(),
        name: z.string(),
        step: z.string(),
        class: z.string(),
        hazard: z.string(),
        measured: z.string(),
        parameter: z.string(),
        limit: pointLimit,
        holdSeconds: z.string().nullable(),
        frequency: z.string(),
        ifNotMonitored: z.string(),
        ifOutside: z.string(),
        correctiveAction: z.string(),
        basis: z.string(),
        validated: validated.extend({ evidence: z.string().nullable() }).nullable(),
      }),
    ),
    loosened: z.array(loosenedAsApproved),
    warnings: z
      .array(z.object({ point: z.string(), name: z.string(), text: z.string() }))
      .meta({ description: 'limits below what is usual, which it was signed with: a competent person has to look at each' }),
  })
  .meta({ id: 'InspectedPlan' });
export type InspectedPlan = z.infer<typeof inspectedPlan>;

export const inspectedDeviation = z
  .object({
    id: z.uuid(),
    ...told,
    reportedAtSite: z
      .string()
      .nullable()
      .meta({ description: 'the site it was reported at, where that is another site; null where it is this one' }),
    subject: z.uuid(),
    subjectType: z.string(),
    subjectName: z.string().nullable(),
    type: z.string(),
    class: z.string(),
    summary: z.string().nullable(),
    holds: z.boolean().meta({ description: 'whether it placed food on hold when it was opened' }),
    onHold: z.boolean().meta({ description: 'whether anything in the house is on hold for it as of the moment of asking' }),
    takenBack: z.object({ as: takenBackAs, says: z.string().nullable() }).nullable().meta({
      description:
        'what became of the record that it came from, where that no longer tells of it: withdrawn, or corrected, with what it says now; or that what is on record now answers it. The deviation stays until somebody closes it',
    }),
    reading: z.uuid().nullable().meta({ description: 'the reading that opened it' }),
    readAgain: z
      .array(inspectedReading)
      .meta({ description: 'later readings of the same subject at the same control point, up to the first within its limit' }),
    actions: z.array(z.object({ ...told, type: z.string(), action: z.string().nullable() })),
    disposition: z.array(inspectedDisposition),
    closed: z
      .object({
        at: instant,
        recordedAt: instant.nullable(),
        by: who,
        selfReview: z.boolean(),
        review: z.string().nullable(),
        /** How many lots stayed on hold because nobody had decided about them, and why. */
        stayedOnHold: z.int(),
        whyOnHold: z.string().nullable(),
      })
      .nullable(),
  })
  .meta({ id: 'InspectedDeviation' });
export type InspectedDeviation = z.infer<typeof inspectedDeviation>;

/** What was decided of a line of a delivery. */
export const lineDecision = z.object({ ...told, decision: z.string(), condition: z.string().nullable() });
export const inspectedDelivery = z
  .object({
    id: z.uuid(),
    ...told,
    supplier: z.string().nullable(),
    noteNumber: z.string().nullable(),
    photo: z.boolean(),
    unattended: z.boolean(),
    lots: z.array(
      z.object({
        id: z.uuid(),
        name: z.string(),
        code: z.string().nullable(),
        codeState: z.string(),
        identified: z.object({ ...told, code: z.string().nullable() }).nullable(),
        mg: count,
        pieces: count,
        asWritten: z.string().nullable(),
        bestBefore: day.nullable(),
        useBy: day.nullable(),
        temperatures: z.array(inspectedReading),
        decisions: z.array(lineDecision),
      }),
    ),
  })
  .meta({ id: 'InspectedDelivery' });
export type InspectedDelivery = z.infer<typeof inspectedDelivery>;

export const inspectedMake = z
  .object({
    id: z.uuid(),
    ...told,
    name: z.string(),
    type: z.string(),
    bakeDay: day,
    station: z.string().nullable(),
    plan: z.uuid().nullable(),
    products: z.array(z.object({ name: z.string(), pieces: z.int() })),
    stages: z.array(z.object({ ...happened, step: z.string(), way: z.string(), place: z.string().nullable() })),
    readings: z.array(inspectedReading),
  })
  .meta({ id: 'InspectedMake' });
export type InspectedMake = z.infer<typeof inspectedMake>;

export const inspectedLoad = z
  .object({
    id: z.uuid(),
    ...told,
    oven: z.string().nullable(),
    deck: z.string().nullable(),
    celsius: count,
    minutes: count,
    plan: z.uuid().nullable(),
    products: z.array(z.object({ name: z.string(), pieces: z.int() })),
    steps: z.array(z.object({ ...happened, step: z.string(), minutes: count })),
    readings: z.array(inspectedReading),
  })
  .meta({ id: 'InspectedLoad' });
export type InspectedLoad = z.infer<typeof inspectedLoad>;

export const inspectedBatch = z
  .object({
    id: z.uuid(),
    ...told,
    name: z.string(),
    code: z.string(),
    bakedOn: day,
    bestBefore: day.nullable(),
    useBy: day.nullable(),
    pieces: z.int(),
    rejects: z.int(),
    readings: z.array(inspectedReading),
    standing: batchStanding.nullable().meta({ description: 'how it stands now, as of when the page was made' }),
    release: z
      .object({
        at: instant,
        way: z.string(),
        by: who,
        meaning: z.string().nullable(),
        inSpiteOf: z.array(z.object({ code: z.string(), what: z.string().nullable() })),
      })
      .nullable(),
  })
  .meta({ id: 'InspectedBatch' });
export type InspectedBatch = z.infer<typeof inspectedBatch>;

/** When a hold ended, by whom and why. */
const ended = z.object({ at: instant, by: who, why: z.string().nullable().default(null) });
export const inspectedChecks = z
  .object({
    probes: z.array(
      z.object({
        id: z.uuid(),
        ...told,
        instrument: z.string().nullable(),
        way: z.string(),
        shownMilli: z.int(),
        referenceMilli: z.int(),
        toleranceMilli: z.int(),
        passed: z.boolean(),
      }),
    ),
    cleanDowns: z.array(
      z.object({
        id: z.uuid(),
        ...told,
        place: z.string().nullable(),
        type: z.string(),
        chemical: z.string().nullable(),
        dilution: z.string().nullable(),
        contactSeconds: count,
      }),
    ),
    notTaken: z.array(
      z.object({
        id: z.uuid(),
        ...told,
        subjectType: z.string(),
        subjectName: z.string().nullable(),
        point: z.string(),
        answer: z.string(),
      }),
    ),
    held: z.array(
      z.object({
        id: z.uuid(),
        ...told,
        lot: z.uuid(),
        lotName: z.string().nullable(),
        because: z.string().nullable(),
        left: z
          .object({ pieces: count, mg: count })
          .nullable()
          .default(null)
          .meta({ description: 'what is left of it as of the moment of asking, by the records; null where they cannot say' }),
        lifted: ended.nullable(),
      }),
    ),
    /** Places that were put on hold: from when on and until when, and when each might be used again. */
    heldPlaces: z.array(
      z.object({
        id: z.uuid(),
        ...told,
        place: z.string(),
        from: instant,
        to: instant.nullable(),
        because: z.string().nullable(),
        ended: ended.nullable(),
      }),
    ),
    /** What is on hold at the site as of the moment of asking, whichever day is looked at. */
    onHold: z.array(heldLot),
  })
  .meta({ id: 'InspectedChecks' });
export type InspectedChecks = z.infer<typeof inspectedChecks>;

export const inspectedCorrection = z
  .object({
    root: z.uuid(),
    kind: z.string(),
    versions: z.array(
      z.object({
        entry: z.uuid(),
        at: instant.nullable(),
        recordedAt: instant,
        by: who,
        doneBy: who,
        withdrawn: z.boolean(),
        reason: z.string().nullable(),
        summary: z.array(z.string()).meta({ description: 'the recorded content in short, with names for ids' }),
        content: z.unknown().meta({ description: 'the whole recorded content; null where the body is withheld' }),
        changes: z
          .array(z.object({ path: z.array(z.string()), before: z.string(), after: z.string() }))
          .meta({ description: 'compared with the version before it' }),
      }),
    ),
  })
  .meta({ id: 'InspectedCorrection' });
export type InspectedCorrection = z.infer<typeof inspectedCorrection>;
