import { lotTrouble, pointClass, pointLimit, receiptChoice, verdict } from '@bakehouse/records';
import * as z from 'zod';
import { doubtView } from './doubt.js';
import { concernView, heldLot, shelvesView } from './standing.js';

const instant = z.iso.datetime();
const count = z.int().nullable();

export const goodsLine = z.object({
  lot: z.uuid(),
  name: z.string(),
  code: z.string().nullable(),
  codeState: z.string(),
  named: z.boolean().meta({ description: 'whether its code was recorded later' }),
  mg: count,
  pieces: count,
  asWritten: z.string().nullable(),
  bestBefore: z.iso.date().nullable(),
  useBy: z.iso.date().nullable(),
  temperature: z
    .object({
      figure: z.string().nullable(),
      unit: z.string().nullable(),
      measured: z.string(),
      verdict,
      class: pointClass.nullable(),
      doubt: doubtView.nullable(),
      limit: pointLimit.nullable(),
      corrected: z.boolean(),
    })
    .nullable(),
  decision: z.object({ decision: receiptChoice, condition: z.string().nullable(), at: instant }).nullable(),
  /** What speaks against it now; empty where nothing does. */
  concerns: z.array(concernView),
  used: z.boolean(),
});

/** What came in, the newest first. */
export const deliveries = z
  .array(
    z.object({
      id: z.uuid(),
      receivedAt: instant,
      supplierName: z.string().nullable(),
      note: z.string().nullable(),
      unattended: z.boolean(),
      by: z.string().nullable().meta({ description: 'who recorded it; null where the name is not known any more' }),
      photo: z.string().nullable().meta({ description: 'the SHA-256 of a photo’s bytes' }),
      lines: z.array(goodsLine),
    }),
  )
  .meta({ id: 'Deliveries' });
export type Deliveries = z.infer<typeof deliveries>;

/** What waits for somebody at a site. */
export const openThings = z
  .object({
    notIdentified: z.array(z.object({ lot: z.uuid(), name: z.string(), at: instant, used: z.boolean() })),
    /** Every lot of the site that something speaks against and that is not surely gone. */
    held: z.array(heldLot),
    /**
     * Lots at the site past a use-by date that they have to be used by, as in a vessel that of what is in it, that are not surely gone, whether or not anything else
     * speaks against them. What is all in a shop of the house is on the list of the shop.
     */
    pastUseBy: z.array(
      z.object({
        lot: z.uuid(),
        name: z.string(),
        type: z.string(),
        code: z.string().nullable(),
        useBy: z.iso.date(),
        trouble: lotTrouble.meta({ description: 'what to use it would be recorded as' }),
        shelves: shelvesView,
      }),
    ),
    setAside: z.array(
      z.object({
        id: z.uuid(),
        as: z.enum(['refused', 'waiting']),
        kind: z.string().nullable(),
        problem: z.string().nullable(),
        field: z.string().nullable(),
        personName: z.string().nullable(),
        at: instant,
      }),
    ),
  })
  .meta({ id: 'OpenThings' });
export type OpenThings = z.infer<typeof openThings>;
