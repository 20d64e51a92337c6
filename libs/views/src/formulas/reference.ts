import {
  allergenSources,
  WorkingSet,
  type AllergenSources,
  type FormulaContent,
  type FormulaLookup,
  type Row,
  type State,
} from '@bakehouse/records';
import type { NewestVersion } from './versions.js';

/** What formulas and plans speak of: the newest versions and all specifications, looked up as the rules of the domain ask for them. */
export interface Reference {
  readonly versions: readonly NewestVersion[];
  readonly specifications: readonly Row<'specification'>[];
}

/** The state on which an approval is judged, as far as these go; a plan's with the plans that there are. */
export function approvalState({ versions, specifications }: Reference, plans: readonly Row<'planVersion'>[] = []): State {
  const state = new WorkingSet(true);
  for (const row of specifications) state.base('specification', { ...row });
  for (const { signed: _signed, note: _note, retired: _retired, ...row } of versions) state.base('formulaVersion', { ...row });
  for (const { id, series, number, site, content, loosened, since } of plans) {
    state.base('planVersion', { id, series, number, site, content, loosened, since });
    state.base('planLife', { id, rule: 'life', plan: id, number, site, ...content.pastLife, since });
  }
  return state;
}

/** What is in force at an instant; `own` is the text of a formula that may not be approved yet. */
export const allergenSourcesOf = (
  { versions, specifications }: Reference,
  at: string,
  own?: { readonly formula: string; readonly content: FormulaContent },
): AllergenSources =>
  allergenSources(
    { specifications, formulas: versions, retired: new Set(versions.filter((v) => v.retired !== null).map((v) => v.formula)) },
    at,
    own,
  );

export const formulaLookup =
  ({ versions }: Reference): FormulaLookup =>
  (formula) =>
    versions.find((v) => v.formula === formula);
