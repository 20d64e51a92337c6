import { takenLate, takenLateNeeds } from './later-content.js';
import { concernsOf, standingNeeds } from './standings.js';
import { goneNeeds, surelyGone } from './surely-gone.js';
import type { Need, Row, State } from '../base/state.js';

/** What came of a lot directly: what it flowed into, and what was identified as it. */
const targetsOf = (state: State, lot: string): string[] => [
  ...(state.knows({ in: 'flow', by: 'source', value: lot }) ? state.find('flow', 'source', lot).map((f) => f.target) : []),
  ...takenLate(state, lot),
  ...(state.knows({ in: 'lotIdentified', by: 'same', value: lot }) ? state.find('lotIdentified', 'same', lot).map((i) => i.lot) : []),
];

/** These lots and everything that came of them, as far as it is known. Needs `downstreamNeeds`. */
export function downstreamOf(state: State, lots: readonly string[]): string[] {
  const seen = new Set(lots);
  for (const lot of seen) for (const target of targetsOf(state, lot)) seen.add(target);
  return [...seen];
}

/** What has to be looked for before `downstreamOf` can be asked of these lots: ask again until it names nothing new. */
export const downstreamNeeds = (state: State, lots: readonly string[]): Need[] =>
  downstreamOf(state, lots).flatMap((lot): Need[] => [
    ...(state.knows({ in: 'flow', by: 'source', value: lot })
      ? []
      : [{ in: 'flow', by: 'source', value: lot, follow: 'target' } satisfies Need]),
    { in: 'lotIdentified', by: 'same', value: lot },
    { in: 'lot', id: lot },
    ...takenLateNeeds(state, lot),
  ]);

/** What has to be looked for before `heldBy` can be asked of what a concern begins at: ask again until it names nothing new. */
export function heldNeeds(state: State, begins: readonly string[]): Need[] {
  const reached = downstreamOf(state, begins);
  const open = downstreamNeeds(state, begins).filter((need) => !state.knows(need));
  // First to the end of what came of it, then what each of that stands on.
  if (open.length > 0) return open;
  return [...standingNeeds(state, reached), ...reached.flatMap((lot) => goneNeeds(state, lot))];
}

/**
 * What a case or a deviation still holds by the concerns behind it: the lots that it reaches, that nobody has decided about and that are not surely gone, in the order of their ids.
 * Closing it and every list of what is undecided read it here. A screen that has worked the concerns out for all its lots gives them.
 */
export function heldBy(
  state: State,
  concerns: readonly string[],
  begins: readonly string[],
  known?: ReturnType<typeof concernsOf>,
): Row<'lot'>[] {
  const reached = downstreamOf(state, begins);
  const reaching = known ?? concernsOf(state, reached);
  return reached
    .filter((lot) => (reaching.get(lot) ?? []).some((r) => concerns.includes(r.concern.id)) && !surelyGone(state, lot, null))
    .flatMap((lot) => state.get('lot', lot) ?? [])
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}
