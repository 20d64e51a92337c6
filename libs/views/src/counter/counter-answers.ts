import { lotAllergens, type Used } from '@bakehouse/graph';
import { allergen, type Allergen } from '@bakehouse/kernel';
import type { AllergenAnswer, NewAllergens } from '@bakehouse/records';

/** One product of today, with the lots of it that may be on the shelf, and what the recipes that they were made by say. */
export interface CounterProduct {
  readonly product: string;
  readonly name: string;
  readonly lots: readonly string[];
  readonly recipe: AllergenAnswer;
  /** What its ticket says: the recipe by what was known when it was approved. */
  readonly ticket: AllergenAnswer | null;
}
/** A lot that was opened today, or whose specification was accepted today, and that brings in allergens which were not there or not known before. */
export interface CounterOpening {
  readonly how: 'opened' | 'specification';
  readonly lot: string;
  readonly at: string;
  readonly fresh: NewAllergens;
}

export type CounterAnswer = 'contains' | 'may-contain' | 'unknown' | 'not';
export interface ProductAnswers {
  readonly product: string;
  readonly name: string;
  readonly answers: Readonly<Record<Allergen, CounterAnswer>>;
  /** What was used today says more than the approved recipe said when it was approved: a ticket or label written from it is out of date for these. */
  readonly notOnTicket: readonly Allergen[];
  /** Possible only because the same bowl made it before and was not cleaned: nothing that a recipe's ticket could say. */
  readonly fromBowl: readonly Allergen[];
  /** Since when a lot with other allergens is in it. */
  readonly staleSince: string | null;
  readonly notKnown: readonly string[];
  /** The day of the oldest check that "not" rests on; null where nothing is "not". */
  readonly checkedSince: string | null;
}

/**
 * For each of today's products and each allergen: contains, may contain, unknown, or not, the first that holds. From what was used; what the recipe
 * says besides counts as possible, since a line may not have been recorded. Never "not" where anything in it is not known
 * or was not checked.
 */
export function counterAnswers(products: readonly CounterProduct[], used: Used, openings: readonly CounterOpening[]): ProductAnswers[] {
  return products.map(({ product, name, lots, recipe, ticket }) => {
    const found = lotAllergens(used, lots);
    const notKnown = lots.length === 0 ? [name] : found.notKnown;
    const may = new Set([...found.mayContain, ...found.fromBowl, ...recipe.contains, ...recipe.mayContain]);
    const unsure = found.checkedSince === null || recipe.notKnown.length > 0;
    const checkedSince = unsure ? null : found.checkedSince;
    const answerOf = (a: Allergen): CounterAnswer =>
      found.contains.has(a) ? 'contains' : may.has(a) ? 'may-contain' : unsure ? 'unknown' : 'not';
    const since = openings.filter((o) => found.from.has(o.lot));
    const [staleSince = null] = since.map((o) => o.at).sort();
    const fresh = new Set(since.flatMap((o) => [...o.fresh.contains, ...o.fresh.mayContain]));
    return {
      product,
      name,
      answers: answersFor(answerOf),
      fromBowl: allergen.options.filter((a) => found.fromBowl.has(a)),
      notKnown: [...notKnown],
      staleSince,
      checkedSince,
      notOnTicket: allergen.options.filter((a) => (ticket === null ? fresh.has(a) : beyond(a, found, ticket))),
    };
  });
}

/** Contained where the ticket does not say it is contained, or possible where the ticket does not speak of it at all. */
const beyond = (
  a: Allergen,
  found: { contains: ReadonlySet<Allergen>; mayContain: ReadonlySet<Allergen> },
  ticket: AllergenAnswer,
): boolean =>
  (found.contains.has(a) && !ticket.contains.includes(a)) ||
  (found.mayContain.has(a) && !ticket.contains.includes(a) && !ticket.mayContain.includes(a));

function answersFor(answerOf: (a: Allergen) => CounterAnswer): Record<Allergen, CounterAnswer> {
  return Object.fromEntries(allergen.options.map((a) => [a, answerOf(a)])) as Record<Allergen, CounterAnswer>; // every option is a key
}
