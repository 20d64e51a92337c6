import * as z from 'zod';

/**
 * Allergens as Regulation (EU) 1169/2011 Annex II names them (from memory of the text), with the cereals and the nuts each on their own,
 * since the law asks for the name of the cereal or nut. Entries that other lists group are mapped, not merged: the lists are not one to one.
 */
export const allergen = z.enum([
  'wheat', 'rye', 'barley', 'oats', 'crustaceans', 'eggs', 'fish', 'peanuts', 'soybeans', 'milk',
  'almond', 'hazelnut', 'walnut', 'cashew', 'pecan', 'brazil-nut', 'pistachio', 'macadamia',
  'celery', 'mustard', 'sesame', 'sulphites', 'lupin', 'molluscs',
]);
export type Allergen = z.infer<typeof allergen>;
