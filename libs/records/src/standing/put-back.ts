import { latest } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import type { ReworkRule } from '../rows/formula-content.js';
import { flowsInto } from './later-content.js';

type Flow = Pick<Row<'flow'>, 'id' | 'source' | 'mg' | 'pieces' | 'type' | 'anyOf' | 'at'>;
/** Something that went into a make, or is about to, with the lot that it really was. */
export interface PutIn {
  readonly flow: Flow;
  readonly lot: Pick<Row<'lot'>, 'id' | 'material' | 'name' | 'type' | 'delivery' | 'at'>;
}

/** What was said of what a lot turned out to be, as far as it was looked for. */
export const namingsOf = (state: State, lot: string): readonly Row<'lotIdentified'>[] =>
  state.knows({ in: 'lotIdentified', by: 'lot', value: lot }) ? state.find('lotIdentified', 'lot', lot) : [];
const rowOf = (state: State, lot: string): Row<'lot'> | undefined =>
  state.knows({ in: 'lot', id: lot }) ? state.get('lot', lot) : undefined;

/** What a lot turned out to be by its last naming, and that in turn; itself where nobody named it otherwise. Needs `reallyNeeds`. */
export function reallyThat(state: State, lot: string, at: string | null): Row<'lot'> | undefined {
  const seen = new Set([lot]);
  let last = lot;
  for (const one of seen) {
    last = one;
    const named = latest(namingsOf(state, one).filter((i) => i.same !== null && (at === null || i.at <= at)));
    if (named && named.same !== null) seen.add(named.same);
  }
  return rowOf(state, last);
}

/** What has to be looked for, as far as can be named now, before `reallyThat` can be asked. */
export function reallyNeeds(state: State, lot: string): Need[] {
  const seen = new Set([lot]);
  const needs: Need[] = [];
  for (const one of seen) {
    needs.push({ in: 'lot', id: one }, { in: 'lotIdentified', by: 'lot', value: one });
    for (const { same } of namingsOf(state, one)) if (same !== null) seen.add(same);
  }
  return needs;
}

/** Of a lot that is a make, what its formula says of rework; null where that is nothing, or it is no make. Needs `ruleNeeds`. */
export function reworkRuleOf(state: State, lot: string): ReworkRule | null {
  const make = state.knows({ in: 'make', id: lot }) ? state.get('make', lot) : undefined;
  if (!make || !state.knows({ in: 'formulaVersion', id: make.formulaVersion })) return null;
  return state.get('formulaVersion', make.formulaVersion)?.content.rework ?? null;
}

/** What has to be looked for, as far as can be named now, before `reworkRuleOf` can be asked. */
export function ruleNeeds(state: State, lot: string): Need[] {
  const own: Need = { in: 'make', id: lot };
  const make = state.knows(own) ? state.get('make', lot) : undefined;
  return [own, ...(make ? [{ in: 'formulaVersion', id: make.formulaVersion } satisfies Need] : [])];
}

/** Whether a line is rework: by its type, or since the formula names its material as such. */
export const isRework = (type: Row<'flow'>['type'], material: string | null | undefined, rule: ReworkRule | null): boolean =>
  type === 'rework' || (rule?.sources.some((s) => s.material === material) ?? false);

/** Everything that went into a lot, as known at an instant or now, each with what it really was. Needs `putIntoNeeds`. */
export const putInto = (state: State, lot: string, at: string | null = null): PutIn[] =>
  flowsInto(state, lot)
    .filter((f) => f.source !== lot && (at === null || f.at <= at))
    .flatMap((flow) => {
      const really = reallyThat(state, flow.source, at);
      return really ? [{ flow, lot: really }] : [];
    });

/** What has to be looked for, as far as can be named now, before `putInto` can be asked of a lot. */
export function putIntoNeeds(state: State, lot: string): Need[] {
  const into: Need = { in: 'flow', by: 'target', value: lot };
  return [into, ...(state.knows(into) ? flowsInto(state, lot).flatMap((f) => reallyNeeds(state, f.source)) : [])];
}
