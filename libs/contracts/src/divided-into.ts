import { measure } from '@bakehouse/records';
import * as z from 'zod';
import { batchStanding } from './standing.js';

const count = z.int().nullable();

/** What a make was divided into, and where that food stands now. */
export const dividedInto = z
  .object({
    at: z.iso.datetime(),
    parts: z.array(
      z.object({
        lot: z.uuid(),
        name: z.string(),
        type: z.string(),
        code: z.string().nullable(),
        mg: count.meta({ description: 'how much there was of it when it was divided or counted out; `pieces` likewise' }),
        pieces: count,
        left: z.object({ amount: count, measure }).nullable().meta({
          description: 'what is in the house of it by the records, its amount null where they cannot say; null where it is surely gone',
        }),
        standing: batchStanding.nullable().meta({ description: 'null where it is no batch, in the house, and nothing speaks against it' }),
      }),
    ),
  })
  .meta({
    id: 'DividedInto',
    description:
      'of one make that was divided, asked about by itself and forward: what its food became and where that stands now, as far as the reader may look. Null otherwise',
  });
