import * as z from 'zod';

/**
 * Allergens as Regulation (EU) 1169/2011 Annex II names them (from memory of the text), with the cereals and the nuts each on their own,
 * since the law asks for the name of the cereal or nut. Entries that other lists group are mapped, not merged: the lists are not one to one.
 */
export const allergen = z.enum([
  'wheat',
  'rye',
  'barley',
  'oats',
  'crustaceans',
  'eggs',
  'fish',
  'peanuts',
  'soybeans',
  'milk',
  'almond',
  'hazelnut',
  'walnut',
  'cashew',
  'pecan',
  'brazil-nut',
  'pistachio',
  'macadamia',
  'celery',
  'mustard',
  'sesame',
  'sulphites',
  'lupin',
  'molluscs',
]);
export type Allergen = z.infer<typeof allergen>;

/** One entry of a legal list, and the allergens here that belong to it. */
export interface AllergenEntry {
  readonly entry: string;
  readonly members: readonly Allergen[];
}

const nuts = [
  'almond',
  'hazelnut',
  'walnut',
  'cashew',
  'pecan',
  'brazil-nut',
  'pistachio',
  'macadamia',
] as const satisfies readonly Allergen[];

/** The 14 entries of Regulation (EU) 1169/2011 Annex II, in its order; retained in Great Britain (from memory of the text). */
export const annexTwo: readonly AllergenEntry[] = [
  { entry: 'cereals containing gluten', members: ['wheat', 'rye', 'barley', 'oats'] },
  { entry: 'crustaceans', members: ['crustaceans'] },
  { entry: 'eggs', members: ['eggs'] },
  { entry: 'fish', members: ['fish'] },
  { entry: 'peanuts', members: ['peanuts'] },
  { entry: 'soybeans', members: ['soybeans'] },
  { entry: 'milk', members: ['milk'] },
  { entry: 'nuts', members: nuts },
  { entry: 'celery', members: ['celery'] },
  { entry: 'mustard', members: ['mustard'] },
  { entry: 'sesame', members: ['sesame'] },
  { entry: 'sulphur dioxide and sulphites above 10 mg/kg', members: ['sulphites'] },
  { entry: 'lupin', members: ['lupin'] },
  { entry: 'molluscs', members: ['molluscs'] },
];

/** The 9 major food allergens of the United States: 21 USC 321(qq), sesame since 2023 (from memory of the text). */
export const usNine: readonly AllergenEntry[] = [
  { entry: 'milk', members: ['milk'] },
  { entry: 'egg', members: ['eggs'] },
  { entry: 'fish', members: ['fish'] },
  { entry: 'Crustacean shellfish', members: ['crustaceans'] },
  { entry: 'tree nuts', members: nuts },
  { entry: 'wheat', members: ['wheat'] },
  { entry: 'peanuts', members: ['peanuts'] },
  { entry: 'soybeans', members: ['soybeans'] },
  { entry: 'sesame', members: ['sesame'] },
];

/** Where the two lists do not map one to one (from memory of both texts). */
export const allergenMappingNotes: readonly string[] = [
  'Rye, barley, oats, celery, mustard, lupin, molluscs and sulphites are on the EU and GB list and are no major allergens in the United States.',
  'United States: sulphites at 10 ppm or more are declared by another rule, 21 CFR 101.100(a)(4); “gluten-free” is yet another, 21 CFR 101.91.',
  'United States: a tree nut is declared by its kind, fish and Crustacean shellfish by their species; pine nuts count as tree nuts there and are not in Annex II.',
  'EU and GB: a cereal and a nut are declared by name. “Gluten” or “nuts” alone is no declaration.',
];

const otherWords: Readonly<Record<string, Allergen>> = {
  oat: 'oats',
  crustacean: 'crustaceans',
  egg: 'eggs',
  peanut: 'peanuts',
  groundnut: 'peanuts',
  soya: 'soybeans',
  soy: 'soybeans',
  soybean: 'soybeans',
  soyabeans: 'soybeans',
  dairy: 'milk',
  almonds: 'almond',
  hazelnuts: 'hazelnut',
  walnuts: 'walnut',
  cashews: 'cashew',
  'cashew-nut': 'cashew',
  pecans: 'pecan',
  'pecan-nut': 'pecan',
  'brazil-nuts': 'brazil-nut',
  pistachios: 'pistachio',
  'pistachio-nut': 'pistachio',
  macadamias: 'macadamia',
  'macadamia-nut': 'macadamia',
  celeriac: 'celery',
  'sesame-seeds': 'sesame',
  sulphite: 'sulphites',
  sulfites: 'sulphites',
  'sulphur-dioxide': 'sulphites',
  lupine: 'lupin',
  mollusc: 'molluscs',
  mollusks: 'molluscs',
  spelt: 'wheat',
};

/** The allergen that a word stands for; undefined for an unknown word and for one that names no single allergen, such as “gluten” or “nuts”. */
export function allergenCalled(word: string): Allergen | undefined {
  const key = word
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const known = allergen.safeParse(key);
  return known.success ? known.data : Object.hasOwn(otherWords, key) ? otherWords[key] : undefined;
}
