import { notifiedHow, notifiedTo } from '@bakehouse/records';
import * as z from 'zod';

/** That the authority was told of a case, or a notice to the public was put up. */
export const notifiedView = z
  .object({
    id: z.uuid(),
    to: notifiedTo,
    how: notifiedHow,
    at: z.iso.datetime(),
    by: z.string().nullable().meta({ description: 'who told them; null where the name is withheld' }),
    reference: z.string().nullable().meta({ description: 'what the authority calls the case' }),
  })
  .meta({ id: 'Notified' });
/** The same with names: null where nothing was written down, or the reader gets no names of contacts. */
export const notifiedInCase = notifiedView
  .extend({
    spokeTo: z.string().nullable(),
    said: z.string().nullable().meta({ description: 'what was said, or where the notice is' }),
  })
  .meta({ id: 'NotifiedInCase' });
export type NotifiedInCase = z.infer<typeof notifiedInCase>;
export type NotifiedView = z.infer<typeof notifiedView>;
