import * as z from 'zod';

export const nightView = z
  .object({
    site: z.object({ id: z.uuid(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
    day: z.iso.date(),
    asOf: z.iso.datetime(),
    /** How many entries the site's and the organisation's book hold at this moment. */
    sizes: z.array(z.object({ book: z.uuid(), name: z.string(), size: z.int() })),
    /** Rows by collection, as the kinds wrote them. */
    rows: z.record(z.string(), z.array(z.looseObject({ id: z.string() }))),
    caution: z.string(),
  })
  .meta({ id: 'Night' });
export type NightView = z.infer<typeof nightView>;
