import { allergen } from '@bakehouse/kernel';
import { checkWay, collections } from '@bakehouse/records';
import * as z from 'zod';
import { allergenAnswer } from './drafts.js';

const instant = z.iso.datetime();
const { type, countedIn, storage, checked } = collections.specification.row.shape;

export const specificationView = z.object({
  id: z.uuid(),
  name: z.string(),
  countedIn,
  densityMgPerMl: z.int().nullable(),
  storage,
  lifeDays: z.int().nullable(),
  lifeOpenedHours: z.int().nullable(),
  contains: z.array(allergen),
  mayContain: z.array(allergen),
  checked: checked.meta({ description: 'null where nobody checked what it contains: what it does not name is unknown' }),
  checkedBy: z.string().nullable(),
  flour: z.boolean(),
  animalOrigin: z.boolean(),
  supplier: z.uuid().nullable(),
  supplierName: z.string().nullable(),
  since: instant,
  inForce: z.boolean().meta({ description: 'the newest of its supplier' }),
});
export const materialList = z
  .array(
    z.object({
      material: z.uuid(),
      name: z.string(),
      type,
      by: z
        .enum(['specification', 'formula'])
        .meta({ description: 'what is bought by its specifications, what is made here by its formulas' }),
      allergens: allergenAnswer,
      specifications: z.array(specificationView).meta({ description: 'the newest first' }),
    }),
  )
  .meta({ id: 'MaterialList' });
export type MaterialList = z.infer<typeof materialList>;

export const partyList = z
  .object({
    contactsShown: z.boolean().meta({ description: 'whether you may see the contacts' }),
    parties: z.array(
      z.object({
        party: z.uuid(),
        type: collections.party.row.shape.type,
        name: z.string().nullable(),
        vulnerable: z.boolean(),
        unattended: z.boolean(),
        since: instant,
        stopped: instant.nullable(),
        contact: z
          .object({
            name: z.string().nullable(),
            phone: z.string().nullable(),
            email: z.string().nullable(),
            address: z.string().nullable(),
          })
          .nullable(),
      }),
    ),
  })
  .meta({ id: 'PartyList' });
export type PartyList = z.infer<typeof partyList>;

export const placeList = z
  .array(
    z.object({
      id: z.uuid(),
      name: z.string(),
      type: collections.place.row.shape.type,
      within: z.uuid().nullable(),
      since: instant,
      outOfUse: instant.nullable(),
    }),
  )
  .meta({ id: 'PlaceList' });
export type PlaceList = z.infer<typeof placeList>;

export const instrumentList = z
  .array(
    z.object({
      id: z.uuid(),
      name: z.string(),
      type: collections.instrument.row.shape.type,
      unit: collections.instrument.row.shape.unit,
      halfWidthMilli: z.int(),
      since: instant,
      outOfUse: instant.nullable(),
      lastCheck: z.object({ at: instant, way: checkWay, passed: z.boolean() }).nullable(),
    }),
  )
  .meta({ id: 'InstrumentList' });
export type InstrumentList = z.infer<typeof instrumentList>;

/** What becomes doubtful if an instrument goes out of use now and nobody checks it. */
export const ifInstrumentOut = z
  .object({
    readings: z.int().meta({ description: 'critical and control readings that could not be trusted any more' }),
    lastCheck: instant.nullable().meta({ description: 'since when; null since it came into use' }),
    batches: z
      .array(z.object({ id: z.uuid(), name: z.string(), code: z.string() }))
      .meta({ description: 'what they were read about, as far as some of it may still be in the house' }),
  })
  .meta({ id: 'IfInstrumentOut' });
export type IfInstrumentOut = z.infer<typeof ifInstrumentOut>;
