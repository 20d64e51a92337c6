import * as z from 'zod';
import {
  inspectedBatch,
  inspectedChecks,
  inspectedCorrection,
  inspectedDelivery,
  inspectedDeviation,
  inspectedLoad,
  inspectedMake,
  inspectedPlan,
  inspectedReading,
  lineDecision,
} from './inspected.js';
import { who } from './inspected-fields.js';
import { inspectedDecision, inspectedWaste } from './inspected-food.js';
import { inspectedRecall } from './inspected-recall.js';
import { sealView } from './seals.js';
import { siteDetails } from './site.js';

const instant = z.iso.datetime();
const day = z.iso.date();
const n = z.int();
/** The records of a site and a period for an officer: the plan, actual values with their limits, deviations and corrective actions. */
export const inspectionView = z
  .object({
    business: z.string(),
    site: z.object({ id: z.uuid(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
    details: siteDetails.default({ address: null, phone: null, registration: null, authority: null, since: null }),
    from: day,
    until: day,
    asOf: instant,
    counts: z.object({
      makes: n,
      loads: n,
      readings: n,
      within: n,
      outside: n,
      doubtful: n,
      notTaken: n,
      deviations: n,
      stillOpen: n,
      openFromBefore: n,
      lotsReceived: n,
      lotsRefused: n,
      batches: n,
      releasedByRule: n,
      releasedByException: n,
      notReleased: n,
      probeChecks: n,
      probeChecksFailed: n,
      cleanDowns: n,
      corrections: n,
    }),
    overnight: z
      .object({
        goesOnUntil: instant
          .nullable()
          .meta({ description: 'the last of what was done after the period to what was begun in it; that is here, too' }),
        begunBefore: z
          .array(z.object({ day, makes: z.array(z.string()) }))
          .meta({ description: 'begun on an earlier day, gone on with in the period; whole on the day that it was begun' }),
      })
      .default({ goesOnUntil: null, begunBefore: [] }),
    plans: z.array(inspectedPlan),
    recalls: z.array(inspectedRecall).default([]),
    deviations: z.array(inspectedDeviation).meta({
      description:
        'opened, decided on or closed in the period, or about what was begun in it; the counts are of those that were opened in it',
    }),
    decisions: z.array(inspectedDecision).default([]),
    waste: z.array(inspectedWaste).default([]),
    makes: z.array(inspectedMake),
    loads: z.array(inspectedLoad),
    otherReadings: z.array(inspectedReading),
    deliveries: z.array(inspectedDelivery),
    otherDecisions: z
      .array(lineDecision.extend({ lot: z.uuid(), lotName: z.string().nullable() }))
      .meta({ description: 'about lots received before the period' }),
    batches: z.array(inspectedBatch),
    checks: inspectedChecks,
    corrections: z.array(inspectedCorrection),
    correctionsTruncated: z
      .boolean()
      .default(false)
      .meta({ description: 'whether there are more corrections than are listed; request a shorter period to see all' }),
    seals: z.array(sealView).meta({ description: 'the site’s book, and the organisation’s, which holds plans and people' }),
    caution: z.string(),
  })
  .meta({ id: 'Inspection' });
export type InspectionView = z.infer<typeof inspectionView>;

export const inspectionPack = z
  .object({
    paper: z.literal('inspection'),
    printedAt: instant,
    printedBy: who,
    inspection: inspectionView,
    says: z.array(z.string()),
    schema: z.record(z.string(), z.unknown()),
  })
  .meta({ id: 'InspectionPack' });
export type InspectionPack = z.infer<typeof inspectionPack>;
