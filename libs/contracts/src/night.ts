import * as z from 'zod';

export const nightView = z
  .object({
    site: z.object({ id: z.uuid(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
    day: z.iso.date(),
    asOf: z.iso.datetime(),
    /** How many entries the site's and the organisation's book hold at this moment. */
    sizes: z.array(z.object({ book: z.uuid(), name: z.string(), size: z.int() })),
    /** Which rows these are: asked with it as `since`, the next answer says only what differs. */
    version: z.string(),
    /** The version that this answer is to be put on top of; null where it is whole. */
    since: z.string().nullable(),
    /** Rows by collection in the order of their ids, as the kinds wrote them: all of them, or those that came or changed. */
    rows: z.record(z.string(), z.array(z.looseObject({ id: z.string() }))),
    /** Ids of the rows of `since` that are no more, by collection. */
    gone: z.record(z.string(), z.array(z.string())),
    /** How many older lots that may still be here, or come back, are not among the rows: the newest of them are. */
    leftOut: z.int().nonnegative(),
    caution: z.string(),
  })
  .meta({ id: 'Night' });
export type NightView = z.infer<typeof nightView>;
