import { hoursAfter, latest } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { isUnnamed } from './not-known.js';
import { namingsOf, reallyNeeds, reallyThat, type PutIn } from './put-back.js';

/** What was made before this is too old to go in at an instant. */
export const tooOldBefore = (at: string, hours: number): string => hoursAfter(at, -hours);

/** When a lot was made: a make when it was ended, or else begun; what was divided or cut out then; a batch when it was counted out after baking. */
function madeAt(state: State, { id, at }: PutIn['lot'], known: string | null): string {
  const make = state.get('make', id);
  if (!make) return at;
  return latest(state.find('makeEnded', 'make', id).filter((e) => known === null || e.at <= known))?.at ?? make.at;
}

const keptIn = (state: State, lot: string): readonly Row<'flow'>[] =>
  state.knows({ in: 'flow', by: 'target', value: lot })
    ? state.find('flow', 'target', lot).filter((f) => f.source !== lot && f.mg !== 0)
    : [];

export interface Oldest {
  /** When the oldest that is known of was made. */
  readonly made: string | null;
  /** Whether something in it has no age that anybody knows. */
  readonly unknown: boolean;
}

/**
 * The oldest of a lot: of a vessel's content that of what was put in and of what was kept over, back to the first content that was there before an instant, since
 * that is too old already. Needs `oldestNeeds`.
 */
export function oldestOf(state: State, lot: PutIn['lot'], before: string, at: string | null): Oldest {
  const [seen, made] = [new Map([[lot.id, lot]]), new Set<string>()];
  let unknown = false;
  for (const one of seen.values()) {
    const into = one.type === 'vessel' && one.at >= before ? keptIn(state, one.id).filter((f) => at === null || f.at <= at) : [];
    for (const { source } of into) {
      const really = reallyThat(state, source, at);
      if (really) seen.set(really.id, really);
      else unknown = true;
    }
    if (isUnnamed(one) || one.type === 'withdrawn') unknown = true;
    else if (into.length === 0) made.add(madeAt(state, one, at));
  }
  return { made: [...made].sort()[0] ?? null, unknown };
}

/** What has to be looked for, as far as can be named now, before `oldestOf` can be asked. */
export function oldestNeeds(state: State, lot: string, before: string): Need[] {
  const seen = new Set([lot]);
  const needs: Need[] = [];
  for (const one of seen) {
    needs.push(...reallyNeeds(state, one), { in: 'make', id: one }, { in: 'makeEnded', by: 'make', value: one });
    for (const { same } of namingsOf(state, one)) if (same !== null) seen.add(same);
    const row = state.knows({ in: 'lot', id: one }) ? state.get('lot', one) : undefined;
    if (row?.type !== 'vessel' || row.at < before) continue;
    needs.push({ in: 'flow', by: 'target', value: one });
    for (const f of keptIn(state, one)) seen.add(f.source);
  }
  return needs;
}
