import { grouped } from '@bakehouse/kernel';
import { allergenSources, firstOf, formulaAt, productAllergens, type AllergenAnswer, type Row } from '@bakehouse/records';

type Version = Row<'formulaVersion'>;
interface Books {
  readonly specifications: readonly Row<'specification'>[];
  readonly formulas: readonly Version[];
  readonly now: string;
}

/**
 * What the tickets and labels of a product say: they are written from the version in force when it is approved, with its washes and aids, by what was known of its
 * materials then. What is made here and had no formula by then is known by its first one: before that nobody could write them.
 */
export function ticketOf({ specifications, formulas, now }: Books, formula: string, product: string): AllergenAnswer | null {
  const version = formulaAt(formulas, formula, now);
  if (!version) return null;
  const known = [...grouped(formulas, (f) => f.formula).values()].flatMap((versions) => knownBy(versions, version.since));
  const sources = allergenSources({ specifications, formulas: known }, version.since);
  const content = sources.contentOf(formula);
  return content ? (productAllergens(content, product, sources) ?? null) : null;
}

function knownBy(versions: readonly Version[], at: string): readonly Version[] {
  if (versions.some(({ formula }) => formulaAt(versions, formula, at) !== undefined)) return versions;
  const first = firstOf(versions);
  return first ? [{ ...first, since: at }] : [];
}
