import { doubtReason } from '@bakehouse/records';
import * as z from 'zod';

/** Why a reading cannot be trusted, whatever its verdict; null stands for one that can. Wherever a verdict goes, this goes with it. */
export const doubtView = z
  .object({
    why: doubtReason,
    instrument: z.string().nullable().meta({ description: 'as it was called when it failed, or else as it is called now' }),
    at: z.iso.datetime(),
  })
  .meta({ id: 'Doubt' });
export type DoubtView = z.infer<typeof doubtView>;
