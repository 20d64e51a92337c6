import { allergen } from '@bakehouse/kernel';
import * as z from 'zod';

const answer = z.enum(['contains', 'may-contain', 'unknown', 'not']);

/** One product with what it contains by what was used. */
export const counterProduct = z
  .object({
    product: z.uuid(),
    name: z.string(),
    onCounter: z.boolean(),
    onHold: z.boolean().meta({ description: 'a lot of it that may be on the shelf is on hold: not to be sold' }),
    answers: z.record(allergen, answer),
    fromBowl: z.array(allergen).meta({ description: 'possible only because the bowl had it before and was not cleaned' }),
    notOnTicket: z.array(allergen).meta({ description: 'used today and not in the recipe: a label made from the recipe is out of date' }),
    checkedSince: z.iso
      .date()
      .nullable()
      .meta({ description: 'the oldest check of a specification that “not” rests on; null where nothing is “not”' }),
    staleSince: z.iso.datetime().nullable().meta({ description: 'since when a lot with other allergens is in it' }),
  })
  .meta({ id: 'CounterProduct' });

/** Today's products and what they contain by what was used: no supplier, no person; of lots those alone that are on hold. */
export const counterView = z
  .object({
    site: z.object({ id: z.uuid(), name: z.string(), zone: z.string() }),
    sites: z.array(z.object({ id: z.uuid(), name: z.string() })),
    day: z.iso.date(),
    asOf: z.iso.datetime(),
    held: z
      .array(
        z.object({
          lot: z.uuid(),
          name: z.string(),
          code: z.string().nullable(),
          since: z.iso.datetime().nullable().meta({ description: 'on the counter of this site since then' }),
          shop: z.string().nullable().meta({ description: 'the shop of the house that it was sent to, where it is on no counter' }),
          pieces: z.int().nullable().meta({ description: 'how many are there by the records; null where nobody can say' }),
        }),
      )
      .meta({ description: 'on the counter of this site, or in a shop that is not known as another site, and on hold: not to be sold' }),
    products: z.array(counterProduct),
    opened: z
      .array(
        z.object({
          at: z.iso.datetime(),
          how: z.enum(['opened', 'specification']).meta({ description: 'a lot was opened, or a specification was accepted' }),
          contains: z.array(allergen),
          mayContain: z.array(allergen),
        }),
      )
      .meta({ description: 'what brought in allergens today that were not there before, or not known' }),
    caution: z.string(),
  })
  .meta({ id: 'Counter' });
export type CounterView = z.infer<typeof counterView>;

/** The sites of which one is to be chosen where a device belongs to none. */
export const counterSites = z.array(z.object({ id: z.uuid(), name: z.string() })).meta({ id: 'CounterSites' });
export type CounterSites = z.infer<typeof counterSites>;

/** Of batches that are asked about: each of their products with what those contain by what was used. */
export const contentsView = z.array(counterProduct).meta({ id: 'Contents' });
export type ContentsView = z.infer<typeof contentsView>;
