import { collections } from '@bakehouse/records';
import * as z from 'zod';
import { foundLots } from './trace.js';

const instant = z.iso.datetime();

const foundDelivery = z.object({
  id: z.uuid(),
  receivedAt: instant,
  note: z.string().nullable(),
  supplierName: z.string().nullable(),
  site: z.uuid(),
  siteName: z.string(),
  lot: z.uuid().nullable().meta({ description: 'the first of what came with it' }),
});
export type FoundDelivery = z.infer<typeof foundDelivery>;

const foundParty = z.object({
  party: z.uuid(),
  type: collections.party.row.shape.type,
  name: z.string().nullable(),
  vulnerable: z.boolean(),
  stopped: instant.nullable(),
});
export type FoundParty = z.infer<typeof foundParty>;

const foundPerson = z.object({ id: z.uuid(), name: z.string().nullable(), leftAt: instant.nullable() });
export type FoundPerson = z.infer<typeof foundPerson>;

/** What has these words in its code, number or name, of what the person may see. */
export const found = z
  .object({
    lots: foundLots,
    deliveries: z.array(foundDelivery),
    parties: z.array(foundParty),
    people: z.array(foundPerson).meta({ description: 'empty for those who may not see the list of people' }),
  })
  .meta({ id: 'Found' });
export type Found = z.infer<typeof found>;
