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

const reasons = {
  notTold: z.array(notifiedTo).meta({ description: 'who was not recorded as told' }),
  whyAuthorityNotTold: z.string().nullable(),
  whyNoNotice: z.string().nullable(),
  whyNotReached: z.string().nullable(),
};
export const customerNotReached = z.object({ party: z.uuid(), name: z.string().nullable() }).meta({ id: 'CustomerNotReached' });
/** Over what a real case was closed, and why. Null where nobody was asked: it is open, a practice, or was closed before this was asked. */
export const closedOver = z.object({ ...reasons, notReached: z.array(customerNotReached) }).meta({ id: 'ClosedOver' });
/** The same for an officer: customers are counted and not named. */
export const closedOverCounted = z.object({ ...reasons, notReached: z.int() }).meta({ id: 'ClosedOverCounted' });
export type ClosedOver = z.infer<typeof closedOver>;
export type ClosedOverCounted = z.infer<typeof closedOverCounted>;
