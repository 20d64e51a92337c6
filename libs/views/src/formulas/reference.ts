import { WorkingSet, type AllergenSources, type FormulaContent, type FormulaLookup, type Row, type State } from '@bakehouse/records';
import type { NewestVersion } from './versions.js';

/** What formulas and plans speak of: the newest versions and all specifications, looked up as the rules of the domain ask for them. */
export interface Reference {
  readonly versions: readonly NewestVersion[];
  readonly specifications: readonly Row<'specification'>[];
}

/** The state on which an approval is judged, as far as these go. */
export function approvalState({ versions, specifications }: Reference): State {
  const state = new WorkingSet(true);
  for (const row of specifications) state.base('specification', { ...row });
  for (const { signed: _signed, note: _note, retired: _retired, ...row } of versions) state.base('formulaVersion', { ...row });
  return state;
}

/** The specification in force of each supplier of a material counts; `own` is the text of a formula that may not be approved yet. */
export function allergenSourcesOf(
  { versions, specifications }: Reference,
  own?: { readonly formula: string; readonly content: FormulaContent },
): AllergenSources {
  const inForce = new Map<string, Map<string | null, Row<'specification'>>>();
  for (const s of specifications)
    inForce.set(s.material, (inForce.get(s.material) ?? new Map<string | null, Row<'specification'>>()).set(s.supplier, s));
  return {
    specificationsOf: (material) => [...(inForce.get(material)?.values() ?? [])],
    contentOf: (formula) => (formula === own?.formula ? own.content : versions.find((v) => v.formula === formula)?.content),
  };
}

export const formulaLookup =
  ({ versions }: Reference): FormulaLookup =>
  (formula) =>
    versions.find((v) => v.formula === formula);
