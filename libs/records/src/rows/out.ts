import { canonicalInteger, collection, how, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

export const counterWay = z.enum(['on', 'off']);
export const returnedDisposition = z.enum(['on-hand', 'waste', 'rework', 'feed', 'donation']);
export const channel = z.enum([
  'dispatch',
  'round',
  'counter',
  'stall',
  'own-shop',
  'donation',
  'eaten-in',
  'staff',
  'feed',
  'sample',
  'waste',
  'supplier-return',
]);
export type Channel = z.infer<typeof channel>;
/**
 * How much a signed decision about food took out of the house: so much of what was at the site that recorded it, so much wherever it was (in a recall case), or all
 * that was left of the lot then.
 */
export const decidedAmount = z.enum(['amount', 'amount-at-site', 'rest']);
/** Pieces or weight of one lot that left, with where to and how sure. `anyOf` groups lots of which one or more, nobody knows which, went. */
export const departure = collection(
  'departure',
  z.object({
    lot: id,
    channel,
    customer: id.nullable(),
    trip: id,
    mg: canonicalInteger.nullable(),
    pieces: z.int().nullable(),
    how,
    certain: z.boolean(),
    anyOf: id.nullable(),
    unattended: z.boolean(),
    /** Destroyed, fed or returned by a signed decision about the food, which `trip` names; null for what was recorded as sent out or thrown away. */
    decided: decidedAmount.nullable(),
    /** Where it was recorded. */
    site: id,
    at: instant,
    /** When it may have left at the earliest, where that is not its instant (`timeDoubt`); null where it is. */
    earliest: instant.nullable(),
    until: instant.nullable(),
  }),
  { by: ['lot', 'trip', 'customer'], visibleTo: 'organisation' },
);
/** Returned goods, as far as known: the departure, the amount and their use. */
export const returned = collection(
  'returned',
  z.object({
    lot: id,
    departure: id.nullable(),
    customer: id.nullable(),
    pieces: z.int().nullable(),
    mg: canonicalInteger.nullable(),
    how,
    disposition: returnedDisposition,
    site: id,
    at: instant,
  }),
  { by: ['lot', 'departure'], visibleTo: 'organisation' },
);
/** A product that stood on the counter from then, until then. It is the house's all that time, wherever in the house it was made. */
export const onCounter = collection(
  'on_counter',
  z.object({ lot: id, way: counterWay, pieces: z.int().nullable(), site: id, at: instant, earliest: instant.nullable() }),
  { by: ['lot'], visibleTo: 'organisation' },
);

export const outRows = { departure, returned, onCounter } as const;
