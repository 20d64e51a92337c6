import { hazard } from '@bakehouse/records';
import * as z from 'zod';

const instant = z.iso.datetime();

/** What opens a case. */
export const openRecall = z
  .strictObject({
    id: z.uuidv7().toLowerCase(),
    suspect: z.array(z.uuid().toLowerCase()).min(1).max(50),
    hazard,
    hazardName: z.string().trim().min(1).max(120),
    practice: z.boolean(),
    said: z.string().max(4000).optional(),
  })
  .meta({ id: 'OpenRecall' });

export const recallList = z
  .array(
    z.object({
      id: z.uuid(),
      openedAt: instant,
      hazard: z.string(),
      hazardName: z.string(),
      practice: z.boolean(),
      closedAt: instant.nullable(),
      lots: z.int(),
      held: z.int().meta({ description: 'how many lots are on hold by it now: nobody has decided about them, closed or not' }),
      toReach: z
        .int()
        .nullable()
        .meta({ description: 'customers whom food of it went to and no call has told, at every site; null once it is closed' }),
    }),
  )
  .meta({ id: 'RecallList' });
