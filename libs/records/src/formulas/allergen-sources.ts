import type { Row } from '../base/state.js';
import { formulaAt, specificationsInForce } from '../control/in-force.js';
import { madeHere } from '../rows/catalogue.js';
import type { AllergenSources } from './formula-allergens.js';

type Specification = Row<'specification'>;
type Version = Pick<Row<'formulaVersion'>, 'formula' | 'number' | 'content' | 'since'>;
export interface AllergenBooks {
  readonly specifications: readonly Specification[];
  readonly formulas: readonly Version[];
  /** Formulas that are retired: nothing comes of them any more. */
  readonly retired?: ReadonlySet<string>;
}

/**
 * What was in force at an instant: of each supplier of a material the latest specification, of each formula the newest version. `own` is the text
 * of a formula that may not be approved yet.
 */
export function allergenSources(
  { specifications, formulas, retired = new Set() }: AllergenBooks,
  at: string,
  own?: Pick<Version, 'formula' | 'content'>,
): AllergenSources {
  const inForce = specificationsInForce(specifications, at);
  const newest = new Map<string, Pick<Version, 'formula' | 'content'>>();
  for (const { formula } of formulas) {
    const version = newest.has(formula) ? undefined : formulaAt(formulas, formula, at);
    if (version) newest.set(formula, version);
  }
  if (own) newest.set(own.formula, own);
  const makers = new Map<string, string[]>();
  for (const { formula, content } of newest.values())
    for (const material of retired.has(formula) ? [] : new Set([content.makes, ...content.products.map((p) => p.product)]))
      makers.set(material, [...(makers.get(material) ?? []), formula]);
  const specificationsOf = (material: string): readonly Specification[] => [...(inForce.get(material)?.values() ?? [])];
  return {
    specificationsOf,
    contentOf: (formula) => newest.get(formula)?.content,
    formulasOf: (material) => (specificationsOf(material).some((s) => madeHere(s.type)) ? (makers.get(material) ?? []) : undefined),
  };
}
