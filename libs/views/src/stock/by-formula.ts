import { allergenSources, formulasInForce, materialAllergens, type AllergenAnswer } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

/** What is made here is no specification's to say: what the formulas in force say of it. Null for what is bought, and for what no formula makes. */
export function containsByFormula(
  { snapshot, at }: Pick<Lookup, 'snapshot' | 'at'>,
  lot: { readonly material: string; readonly name: string },
): AllergenAnswer | null {
  const { formulaVersion: formulas, formulaRetired, specification: specifications } = snapshot;
  const inForce = new Set(formulasInForce(formulas, formulaRetired, at).map((v) => v.formula));
  const retired = new Set(formulas.flatMap((v) => (inForce.has(v.formula) ? [] : v.formula)));
  const sources = allergenSources({ specifications, formulas, retired }, at);
  const makers = sources.formulasOf(lot.material);
  if (makers === undefined || makers.length === 0) return null;
  return materialAllergens(lot.material, lot.name, sources);
}
