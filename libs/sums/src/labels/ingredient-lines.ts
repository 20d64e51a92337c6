import { allergen, allergenCalled, refuse, type Allergen, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { apportion } from '../bakery/apportion.js';
import { exactly, micrograms, maxGrams } from '../bakery/formula.js';
import { plus, type Fraction } from '../bakery/fraction.js';
import { between, only, positive } from '../food-safety/fields.js';

const nameError = 'a name of 1 to 120 characters';
const name = z.string({ error: nameError }).trim().min(1, nameError).max(120, nameError);
const allergenError = `allergens by name (a cereal or nut by its own name, not “gluten” or “nuts”): ${allergen.options.join(', ')}`;
const allergens = z
  .array(
    z
      .string({ error: allergenError })
      .max(60, allergenError)
      .transform((word, context): Allergen => {
        const known = allergenCalled(word);
        if (known !== undefined) return known;
        context.addIssue({ code: 'custom', message: allergenError });
        return z.NEVER;
      }),
    { error: allergenError },
  )
  .max(60, allergenError);

const common = {
  name,
  allergens: allergens.optional().meta({ description: 'what it contains' }),
  mayContain: allergens.optional().meta({ description: 'what it may contain by chance' }),
};
const partGrams = positive('the weight of the part, in grams or in any one unit, for all parts or for none', maxGrams).optional();
const innerPart = only({ ...common, grams: partGrams });
const part = only({ ...common, grams: partGrams, parts: z.array(innerPart).min(1).max(60).optional() });
const line = only({
  ...common,
  grams: positive('the weight that goes in, in grams', maxGrams),
  water: z.boolean().optional().meta({ description: 'true for added water; a line named “water” is taken for it' }),
  parts: z
    .array(part)
    .min(1)
    .max(60)
    .optional()
    .meta({ description: 'the ingredients of a compound ingredient; without grams they keep the given order' }),
  merge: z.boolean().optional().meta({ description: 'true for a preferment or mix made here: its parts join the list in place of it' }),
});
export const lines = z
  .array(line, { error: 'a list of lines with name and grams' })
  .min(1, 'at least one line')
  .max(200, 'at most 200 lines');
export type Line = z.output<typeof line>;

/** An ingredient of the list: exact weight, its allergens and its own ingredients in order. */
export interface Listed {
  readonly name: string;
  readonly weight: Fraction;
  readonly water: boolean;
  readonly allergens: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  readonly parts: readonly ListedPart[];
}
export interface ListedPart {
  readonly name: string;
  readonly allergens: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  readonly parts: readonly ListedPart[];
}
type Part = z.output<typeof part>;

/** Allergens once each, in the order of the law's list. */
export const inOrder = (some: readonly Allergen[]): Allergen[] => allergen.options.filter((one) => some.includes(one));
/** By name, so that an equal weight never makes the list depend on the order of what was typed. */
export const byName = (a: { name: string }, b: { name: string }): number => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);

const weighed = (parts: readonly { grams?: number | undefined }[]) => parts.filter((one) => one.grams !== undefined).length;
const halfWeighed = (parts: readonly Part[]): boolean =>
  [parts, ...parts.map((one) => one.parts ?? [])].some((some) => weighed(some) !== 0 && weighed(some) !== some.length);
const isWater = (one: { name: string; water?: boolean | undefined }): boolean => one.water ?? /^(tap )?water$/i.test(one.name);

function sortedParts(parts: readonly Part[]): ListedPart[] {
  return [...parts]
    .sort((a, b) => (a.grams === undefined || b.grams === undefined ? 0 : b.grams - a.grams || byName(a, b)))
    .map((one) => ({
      name: one.name,
      allergens: one.allergens ?? [],
      mayContain: one.mayContain ?? [],
      parts: sortedParts(one.parts ?? []),
    }));
}

function separate(one: Line): Listed[] {
  const own = { allergens: one.allergens ?? [], mayContain: one.mayContain ?? [] };
  const parts = one.parts ?? [];
  if (one.merge !== true)
    return [{ name: one.name, weight: exactly(micrograms(one.grams)), water: isWater(one), ...own, parts: sortedParts(parts) }];
  const shares = apportion(
    micrograms(one.grams),
    parts.map((p) => exactly(micrograms(p.grams ?? 0))),
  );
  const found = new Set(parts.flatMap((p) => p.allergens ?? []));
  const unplaced = own.allergens.filter((a) => !found.has(a)); // said of the whole only: put on its first part rather than lost
  return parts.map((p, index) => ({
    name: p.name,
    weight: exactly(shares[index] ?? 0),
    water: isWater(p),
    allergens: [...(p.allergens ?? []), ...(index === 0 ? unplaced : [])],
    mayContain: [...(p.mayContain ?? []), ...own.mayContain],
    parts: sortedParts(p.parts ?? []),
  }));
}

/** The lines with preferments taken apart and lines of one name and no parts put together. Refuses parts that cannot be weighed or ordered. */
export function listed(given: readonly Line[]): { ok: true; all: Listed[] } | Refused {
  for (const [index, one] of given.entries()) {
    const parts = one.parts ?? [];
    if (halfWeighed(parts))
      return refuse(
        'unacceptable-value',
        `lines.${index}.parts`,
        'grams on every part, or on none where the parts stand in their order already',
      );
    if (one.merge === true && (parts.length === 0 || parts.every((p) => micrograms(p.grams ?? 0) === 0)))
      return refuse('unacceptable-value', `lines.${index}.parts`, 'the parts with grams, since merge is true');
  }
  const found = new Map<string, Listed>();
  for (const [index, one] of given.flatMap(separate).entries()) {
    const key = one.parts.length > 0 ? `compound ${index}` : `${one.water ? 'water' : `plain ${one.name.toLowerCase()}`}`;
    const before = found.get(key);
    found.set(
      key,
      before === undefined
        ? one
        : {
            ...before,
            weight: plus(before.weight, one.weight),
            allergens: [...before.allergens, ...one.allergens],
            mayContain: [...before.mayContain, ...one.mayContain],
          },
    );
  }
  return { ok: true, all: [...found.values()] };
}

export const finished = between('the weight of the finished product in grams', 0.001, maxGrams);
