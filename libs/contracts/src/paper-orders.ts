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

export const paperSize = z.enum(['a4', 'letter']).meta({ id: 'PaperSize', description: 'the sheets in the printer' });
export type PaperSize = z.infer<typeof paperSize>;

/** The papers of a recall case: everything for the house, what a customer is sent, or what is called from. Each customer gets the notice alone: the others’ names and telephone numbers are none of theirs. */
export const recallPart = z.enum(['all', 'notice', 'contacts', 'customer', 'public']).meta({ id: 'RecallPart' });
export type RecallPart = z.infer<typeof recallPart>;
