import * as z from 'zod';

/** A paper that was ordered: it is made when its turn comes, and kept for a while. */
export const paperOrder = z
  .object({
    id: z.uuid(),
    state: z.enum(['in-line', 'being-made', 'done', 'failed']),
    ahead: z.int().min(0).meta({ description: 'how many papers are made before it' }),
  })
  .meta({ id: 'PaperOrder' });
export type PaperOrder = z.infer<typeof paperOrder>;
