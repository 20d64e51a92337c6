import { allergen } from '@bakehouse/kernel';
import * as z from 'zod';

type Allergen = z.infer<typeof allergen>;
interface Declared {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
}

/** Allergens that were not there before, in the order of the list. */
export const newAllergens = z.strictObject({ contains: z.array(allergen), mayContain: z.array(allergen) });
export type NewAllergens = z.infer<typeof newAllergens>;

/**
 * What a lot brings in that none of those before it had: newly contained (also where it was only possible before), and newly possible.
 */
export function allergensNewIn(now: Declared, before: readonly Declared[]): NewAllergens {
  const contained = new Set(before.flatMap((b) => b.contains));
  const possible = new Set(before.flatMap((b) => [...b.contains, ...b.mayContain]));
  return {
    contains: allergen.options.filter((a) => now.contains.includes(a) && !contained.has(a)),
    mayContain: allergen.options.filter((a) => now.mayContain.includes(a) && !now.contains.includes(a) && !possible.has(a)),
  };
}
