import { grouped } from '@bakehouse/kernel';
import { concernNeeds, concernsAt, decidedAt, type Concern } from './concern.js';
import { certainLink, linkNeeds, sourcesOf, upstreamOf } from './links.js';
import type { Need, State } from '../base/state.js';

/** A concern that reaches a lot, and the lot that it came by; null where it begins there. */
export interface Reaching {
  readonly concern: Concern;
  readonly by: string | null;
  /** Every link on the way is certain; otherwise it is possible, and held all the same. */
  readonly certain: boolean;
}

/** What has to be looked for before `concernsOf` can be asked of these lots: ask again until it names nothing new. */
export const standingNeeds = (state: State, lots: readonly string[]): Need[] =>
  upstreamOf(state, lots).flatMap((lot) => [
    ...(state.knows({ in: 'flow', by: 'target', value: lot }) ? [] : linkNeeds(lot)),
    { in: 'lotIdentified', by: 'lot', value: lot },
    ...concernNeeds(state, lot),
  ]);

/**
 * The concerns that reach each of these lots: those that begin at it and those that came with the food, nearest first. A decision about one lot ends a
 * concern there, and beyond it where it covers what came of it as well. The same whatever order the records came in. `at` asks what was on record of then.
 */
export function concernsOf(state: State, lots: readonly string[], at: string | null = null): ReadonlyMap<string, readonly Reaching[]> {
  const nodes = upstreamOf(state, lots);
  const beginning = nodes.flatMap((lot) => concernsAt(state, lot, at));
  if (beginning.length === 0) return new Map();
  const links = nodes.flatMap((lot) => sourcesOf(state, lot).map((source) => ({ source, lot })));
  const into = grouped(links, (l) => l.source);
  const found = new Map<string, Reaching[]>();
  const asked = new Set(lots);
  for (const roots of grouped(beginning, (c) => c.id).values()) {
    for (const [lot, reaching] of follow(state, roots, into, at)) {
      if (asked.has(lot)) found.set(lot, [...(found.get(lot) ?? []), reaching]);
    }
  }
  return found;
}

/** One concern, from each lot that it begins at, along the links. */
function follow(
  state: State,
  roots: readonly Concern[],
  into: ReadonlyMap<string, readonly { readonly lot: string }[]>,
  at: string | null,
): ReadonlyMap<string, Reaching> {
  const reached = new Map<string, Reaching>(roots.map((concern) => [concern.lot, { concern, by: null, certain: concern.certain }]));
  const held = new Map<string, Reaching>();
  for (const [lot, reaching] of reached) {
    const decided = decidedAt(state, lot, at).get(reaching.concern.id);
    if (decided === undefined) held.set(lot, reaching);
    if (decided === 'what-came-of-it') continue;
    for (const { lot: next } of into.get(lot) ?? []) {
      const certain = reaching.certain && certainLink(state, lot, next);
      const before = reached.get(next);
      // A certain way counts more than a shorter one: such a lot is walked again.
      if (before && (before.certain || !certain)) continue;
      if (before) reached.delete(next);
      reached.set(next, { concern: reaching.concern, by: lot, certain });
    }
  }
  return held;
}
