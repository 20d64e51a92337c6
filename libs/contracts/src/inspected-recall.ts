import * as z from 'zod';
import { count, who } from './inspected-fields.js';
import { closedOverCounted, notifiedView } from './recall-notified.js';

const instant = z.iso.datetime();

/** A recall case whose scope has lots that were made at, came to or were sent to the site. What is elsewhere is counted, not named; nor are customers. */
export const inspectedRecall = z
  .object({
    id: z.uuid(),
    openedAt: instant,
    openedBy: who,
    practice: z.boolean(),
    hazard: z.string(),
    hazardName: z.string(),
    said: z.string().nullable(),
    suspects: z.array(z.object({ lot: z.uuid(), name: z.string(), code: z.string().nullable() })),
    lots: z.int().meta({ description: 'in the scope, at every site' }),
    lotsHere: z
      .int()
      .meta({ description: 'of them made at the site, received there, brought there, or sent there as to a shop of the house' }),
    calls: z.int(),
    informed: z.int().meta({ description: 'customers who were told' }),
    toReach: z
      .int()
      .meta({ description: 'customers whom food of it went to, at every site, and whom no call has told as of the moment of asking' }),
    notified: z.array(notifiedView),
    decisions: z.array(
      z.object({
        ...{
          lot: z.uuid(),
          name: z.string(),
          code: z.string().nullable(),
          decision: z.string(),
          pieces: count,
          mg: count,
          at: instant,
          by: who,
        },
      }),
    ),
    closedAt: instant.nullable(),
    closedBy: who,
    whyOnHold: z.string().nullable(),
    closedOver: closedOverCounted.nullable(),
  })
  .meta({ id: 'InspectedRecall' });
export type InspectedRecall = z.infer<typeof inspectedRecall>;
