import { lotAllergens, type Used } from '@bakehouse/graph';
import { allergen, type Allergen } from '@bakehouse/kernel';
import type { AllergenAnswer, NewAllergens } from '@bakehouse/records';

/** One product of today, with the lots of it that may be on the shelf, and what its recipe says where there is one. */
export interface CounterProduct {
  readonly product: string;
  readonly name: string;
  readonly lots: readonly string[];
  readonly recipe: AllergenAnswer | null;
}
/** A lot that was opened today and brings in allergens that what was open before did not have. */
export interface CounterOpening {
  readonly lot: string;
  readonly at: string;
  readonly fresh: NewAllergens;
}

export type CounterAnswer = 'contains' | 'may-contain' | 'unknown' | 'not';
export interface ProductAnswers {
  readonly product: string;
  readonly name: string;
  readonly answers: Readonly<Record<Allergen, CounterAnswer>>;
  /** What was used today says more than the recipe, so a ticket or label written from the recipe is out of date for these. */
  readonly notOnTicket: readonly Allergen[];
  /** Possible only because the same bowl made it before and was not cleaned: nothing that a recipe's ticket could say. */
  readonly fromBowl: readonly Allergen[];
  /** Since when a lot with other allergens is in it. */
  readonly staleSince: string | null;
  readonly notKnown: readonly string[];
}

/**
 * For each of today's products and each allergen: contains, may contain, unknown, or not, the first that holds. From what was used; what the recipe
 * says besides counts as possible, since a line may not have been recorded. Never "not" where anything in it is not known.
 */
export function counterAnswers(products: readonly CounterProduct[], used: Used, openings: readonly CounterOpening[]): ProductAnswers[] {
  return products.map(({ product, name, lots, recipe }) => {
    const found = lotAllergens(used, lots);
    const notKnown = lots.length === 0 ? [name] : found.notKnown;
    const may = new Set([...found.mayContain, ...found.fromBowl, ...(recipe?.contains ?? []), ...(recipe?.mayContain ?? [])]);
    const unsure = notKnown.length > 0 || (recipe?.notKnown.length ?? 0) > 0;
    const answerOf = (a: Allergen): CounterAnswer =>
      found.contains.has(a) ? 'contains' : may.has(a) ? 'may-contain' : unsure ? 'unknown' : 'not';
    const stale = openings
      .filter((o) => found.from.has(o.lot))
      .map((o) => o.at)
      .sort();
    return {
      product,
      name,
      answers: answersFor(answerOf),
      fromBowl: allergen.options.filter((a) => found.fromBowl.has(a)),
      notKnown: [...notKnown],
      staleSince: stale[0] ?? null,
      notOnTicket: recipe === null ? [] : allergen.options.filter((a) => beyond(a, found, recipe)),
    };
  });
}

/** Contained where the recipe does not say it is contained, or possible where the recipe does not speak of it at all. */
const beyond = (
  a: Allergen,
  found: { contains: ReadonlySet<Allergen>; mayContain: ReadonlySet<Allergen> },
  recipe: AllergenAnswer,
): boolean =>
  (found.contains.has(a) && !recipe.contains.includes(a)) ||
  (found.mayContain.has(a) && !recipe.contains.includes(a) && !recipe.mayContain.includes(a));

function answersFor(answerOf: (a: Allergen) => CounterAnswer): Record<Allergen, CounterAnswer> {
  return Object.fromEntries(allergen.options.map((a) => [a, answerOf(a)])) as Record<Allergen, CounterAnswer>; // every option is a key
}
