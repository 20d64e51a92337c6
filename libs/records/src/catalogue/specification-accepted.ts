import { allergen, canonicalInteger, decided, id, localDay, name, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { defineKind } from '../base/kind.js';
import type { Need } from '../base/state.js';
import { checked, countedIn, madeHere, materialType, storage } from '../rows/catalogue.js';

const allergens = z
  .array(allergen)
  .max(allergen.options.length)
  .refine((list) => new Set(list).size === list.length, { message: 'each allergen once' });

const material = {
  material: id,
  name,
  type: materialType,
  countedIn,
  /** Milligrams per millilitre: from icing sugar in a heap to well above the heaviest syrup. */
  densityMgPerMl: canonicalInteger.min(100).max(2_500).nullable(),
  storage,
  lifeDays: z.int().positive().max(3_650).nullable(),
  lifeOpenedHours: z.int().positive().max(87_600).nullable(),
  contains: allergens,
  mayContain: allergens,
  flour: z.boolean(),
  animalOrigin: z.boolean(),
  supplier: id.nullable(),
};

/**
 * Version 1 did not ask whether anybody had checked the content. What it named counts as before; what it did not name is unknown, since an empty
 * list may have been the page's default. Somebody who did check corrects the entry or accepts the material anew.
 */
const unchecked = z.strictObject(material);

/**
 * What a material is and contains from now on: the house has read the specification and accepts it. A change by the supplier is a new
 * specification of the same material, and reaches what is still there of that supplier's goods. A material stays of the type that it is. What is
 * made here has no allergens of its own: they follow from its formulas and from what was used.
 */
export const specificationAccepted = defineKind({
  name: 'specification-accepted',
  version: 2,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: null,
  permission: 'manage.catalogue',
  phrase: 'A specification was accepted',
  official: 'Specification accepted',
  words: ['note'],
  payload: z
    .strictObject({ ...material, checked: checked.nullable() })
    .refine((p) => !p.mayContain.some((a) => p.contains.includes(a)), {
      message: 'only what it does not contain for certain',
      path: ['mayContain'],
    })
    .refine((p) => !p.flour || (p.countedIn === 'mass' && p.type !== 'packaging' && p.type !== 'product'), {
      message: 'flour is weighed, and is an ingredient',
      path: ['flour'],
    }),
  upcast: { 1: upcaster(unchecked, (old) => ({ ...old, checked: null })) },
  outcome: z.strictObject({}),
  examples: [
    {
      material: '0190a6d0-7b3c-7000-8000-0000000000c1',
      name: 'Strong white flour',
      type: 'ingredient',
      countedIn: 'mass',
      densityMgPerMl: null,
      storage: 'ambient',
      lifeDays: 180,
      lifeOpenedHours: null,
      contains: ['wheat'],
      mayContain: ['soybeans'],
      checked: { against: 'supplier-specification', on: '2026-11-20' },
      flour: true,
      animalOrigin: false,
      supplier: null,
    },
  ],
  needs: (p): Need[] => [
    { in: 'specification', by: 'material', value: p.material },
    ...(p.supplier === null ? [] : [{ in: 'party', by: 'party', value: p.supplier } satisfies Need]),
  ],
  decide({ payload: p, root, at }, state, { stamp }) {
    if (p.supplier !== null && state.find('party', 'party', p.supplier).length === 0) return refuse('unknown-party', 'payload.supplier');
    if (madeHere(p.type) && p.contains.length + p.mayContain.length > 0)
      return refuse('unacceptable-value', 'payload.contains', 'none: what is made here contains what its formulas say');
    if (madeHere(p.type) && p.checked !== null)
      return refuse('unacceptable-value', 'payload.checked', 'null: what is made here contains what its formulas say');
    if (p.checked !== null && p.checked.on > localDay(at, stamp.zone))
      return refuse('unacceptable-value', 'payload.checked.on', 'a day that is not after the acceptance');
    const other = state.find('specification', 'material', p.material).find((s) => s.id !== root && s.type !== p.type);
    return other === undefined
      ? decided({})
      : refuse(
          'unacceptable-value',
          'payload.type',
          `${other.type}, as this material was accepted before; another type is another material`,
        );
  },
  rows: ({ payload: p, root, at, doneBy }, _outcome, stamp) => [
    {
      in: 'specification',
      id: root,
      row: { ...p, checked: p.checked && { ...p.checked, by: doneBy ?? stamp.person }, since: at },
    },
  ],
});
