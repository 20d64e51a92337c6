import * as z from 'zod';

/** What is left of each lot that came to a site or was made there for later and may still be there, by all records. */
export const stockLeft = z
  .object({
    lots: z.array(
      z.object({
        lot: z.uuid(),
        leftMg: z.int().nullable().meta({
          description: 'milligrams; below zero where more was taken than there was, null where the records cannot say',
        }),
        perhapsMg: z.int().nullable().meta({
          description: 'so much less may be left, where some went as one of several lots; null where the records cannot say how much',
        }),
      }),
    ),
    /** How many more there are, longer ago than the newest that are told. */
    leftOut: z.int().nonnegative(),
  })
  .meta({ id: 'StockLeft' });
export type StockLeft = z.infer<typeof stockLeft>;
