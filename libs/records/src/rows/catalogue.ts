import { allergen, calendarDay as day, canonicalInteger, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

export const materialType = z.enum(['ingredient', 'packaging', 'aid', 'intermediate', 'product']);
export type MaterialType = z.infer<typeof materialType>;
/** Whether a material of this type is made here, and so contains what its formulas say and what was used. */
export const madeHere = (type: MaterialType): boolean => type === 'intermediate' || type === 'product';
export const countedIn = z.enum(['mass', 'pieces']);
export const storage = z.enum(['ambient', 'chilled', 'frozen']);
/** What somebody holds against a list of allergens before a material is accepted. */
export const checkedAgainst = z.enum(['label', 'supplier-specification', 'delivery-document', 'allergen-questionnaire', 'analysis']);
/** What the content was checked against and on which day. */
export const checked = z.strictObject({ against: checkedAgainst, on: day });
/** What a material is and contains from a date on. The latest `since` (then seq) not after a moment is in force at it. */
export const specification = collection(
  'specification',
  z.object({
    material: id,
    name: z.string(),
    type: materialType,
    countedIn,
    /** Milligrams per millilitre, where it is bought or used by volume. */
    densityMgPerMl: canonicalInteger.nullable(),
    storage,
    lifeDays: z.int().nullable(),
    lifeOpenedHours: z.int().nullable(),
    contains: z.array(allergen),
    mayContain: z.array(allergen),
    /** Who checked that, against what and when; null where nobody did: then what it does not name is unknown, and never absent. */
    checked: checked.extend({ by: id }).nullable(),
    /** Flour counts towards the 100 % of baker's percentages. */
    flour: z.boolean(),
    animalOrigin: z.boolean(),
    supplier: id.nullable(),
    since: instant,
  }),
  { by: ['material'], visibleTo: 'organisation' },
);

export const partyType = z.enum(['supplier', 'customer', 'own-shop', 'donation', 'feed']);
/** A supplier or customer as known from a date on, with whom to ring. Names and numbers are words: outside the hashed bytes. */
export const party = collection(
  'party',
  z.object({
    party: id,
    type: partyType,
    name: z.string().nullable(),
    contactName: z.string().nullable(),
    phone: z.string().nullable(),
    email: z.string().nullable(),
    address: z.string().nullable(),
    /** Vulnerable consumers eat there: children, patients, people who depend on the food. They are called first. */
    vulnerable: z.boolean(),
    unattended: z.boolean(),
    since: instant,
  }),
  { by: ['party'], visibleTo: 'organisation' },
);
/** A supplier's lot-less habit, or that dealing with it was stopped. */
export const partyStopped = collection('party_stopped', z.object({ party: id, at: instant }), { by: ['party'], visibleTo: 'organisation' });

export const catalogueRows = { specification, party, partyStopped } as const;
