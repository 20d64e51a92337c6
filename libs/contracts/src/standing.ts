import { concernType, dispositionChoice, measure } from '@bakehouse/records';
import * as z from 'zod';

const instant = z.iso.datetime();

/** What was decided about a part of a lot, and what is left of it to decide on. */
export const decidedPart = z
  .object({
    decided: z.array(z.object({ decision: dispositionChoice, pieces: z.int().nullable(), mg: z.int().nullable() })),
    left: z
      .object({ pieces: z.int().nullable(), mg: z.int().nullable() })
      .nullable()
      .meta({ description: 'what nobody has decided on, by the records; null where they cannot say' }),
    atMost: z.boolean().meta({ description: 'whether some of what was decided on may be among what is left' }),
  })
  .meta({ id: 'DecidedPart' });

/** Something on record that speaks against using or selling a lot: where it begins, and the lot that it came by. */
export const concernView = z
  .object({
    id: z.string().meta({
      description:
        'the entry behind it; of what is worked out from the records (a use past a use-by date, sums that cannot be) its type and its lot',
    }),
    type: concernType,
    what: z.string().nullable(),
    since: instant,
    /** The lot that it begins at, by name; the same lot where it begins here. */
    from: z.uuid(),
    fromName: z.string(),
    by: z.uuid().nullable(),
    part: decidedPart.nullable().default(null).meta({
      description: 'what was decided about a part of the lot already, of what a decision about the food ends; null where nothing was',
    }),
    certain: z.boolean(),
  })
  .meta({ id: 'Concern' });
export type ConcernView = z.infer<typeof concernView>;

/** How a batch stands now, whatever was decided about it before. */
export const batchStanding = z.enum(['on-hold', 'waiting', 'ready', 'released', 'gone']);
export type BatchStanding = z.infer<typeof batchStanding>;

/** Where customers may take it: take it off there. */
export const shelvesView = z
  .object({
    inShop: z.object({ shop: z.string().nullable(), amount: z.int().nullable(), measure }).nullable().meta({
      description: 'sent to a shop of the house and there still, but for what stands on a counter; the amount is null where nobody can say',
    }),
    onCounter: z.array(z.object({ site: z.uuid(), siteName: z.string(), since: instant, pieces: z.int().nullable() })),
  })
  .meta({ id: 'Shelves' });
export type ShelvesView = z.infer<typeof shelvesView>;

/** A lot that something speaks against and that is not surely gone. */
export const heldLot = z
  .object({
    lot: z.uuid(),
    name: z.string(),
    type: z.string(),
    code: z.string().nullable(),
    concerns: z.array(concernView),
    shelves: shelvesView,
  })
  .meta({ id: 'HeldLot' });
export type HeldLot = z.infer<typeof heldLot>;
