import { byTime, grouped } from '@bakehouse/kernel';
import { concernNeeds, concernsAt, decidedAt, type Concern, type Covers } from './concern.js';
import { certainLink, clearSince, linkNeeds, sourcesOf, upstreamOf } from './links.js';
import { laterNeeds } from './later-content.js';
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
    ...(state.knows({ in: 'flow', by: 'target', value: lot }) || clearSince(state, lot) !== null ? [] : linkNeeds(lot)),
    { in: 'lotIdentified', by: 'lot', value: lot },
    ...laterNeeds(state, lot),
    ...concernNeeds(state, lot),
  ]);

/**
 * The concerns that reach each of these lots: those that begin at it and those that came with the food, the newest first. A decision about one lot
 * ends a concern there, and beyond it where it covers what came of it as well. The same whatever order the records came in. `at` asks what was on record of then.
 */
export function concernsOf(state: State, lots: readonly string[], at: string | null = null): ReadonlyMap<string, readonly Reaching[]> {
  const found = new Map<string, Reaching[]>();
  const asked = new Set(lots);
  for (const followed of allFollowed(state, upstreamOf(state, lots), at))
    for (const [lot, { reaching, decided }] of followed)
      if (decided === undefined && asked.has(lot)) found.set(lot, [...(found.get(lot) ?? []), reaching]);
  return found;
}

/** The lots at which a concern is open, or which it passes through to what came of them. `nodes` holds all that they come from. */
export const openAmong = (state: State, nodes: readonly string[]): string[] =>
  allFollowed(state, nodes, null).flatMap((followed) =>
    [...followed].flatMap(([lot, { decided }]) => (decided === 'what-came-of-it' ? [] : [lot])),
  );

interface Followed {
  readonly reaching: Reaching;
  /** The decision that ended it there, by what it covers. */
  readonly decided: Covers | undefined;
}

/** Every concern that begins at one of the nodes, followed among them. */
function allFollowed(state: State, nodes: readonly string[], at: string | null): ReadonlyMap<string, Followed>[] {
  const beginning = nodes.flatMap((lot) => concernsAt(state, lot, at)).sort(newestFirst);
  if (beginning.length === 0) return [];
  const links = [...nodes].sort().flatMap((lot) => sourcesOf(state, lot).map((source) => ({ source, lot })));
  const into = grouped(links, (l) => l.source);
  return [...grouped(beginning, (c) => c.id).values()].map((roots) => follow(state, roots, into, at));
}

const newestFirst = (b: Concern, a: Concern): number =>
  byTime({ at: a.since, id: `${a.id} ${a.lot}` }, { at: b.since, id: `${b.id} ${b.lot}` });

/** One concern, from each lot that it begins at, along the links. */
function follow(
  state: State,
  roots: readonly Concern[],
  into: ReadonlyMap<string, readonly { readonly lot: string }[]>,
  at: string | null,
): ReadonlyMap<string, Followed> {
  const reached = new Map<string, Reaching>(roots.map((concern) => [concern.lot, { concern, by: null, certain: concern.certain }]));
  const followed = new Map<string, Followed>();
  for (const [lot, reaching] of reached) {
    const decided = decidedAt(state, lot, at).get(reaching.concern.id);
    followed.set(lot, { reaching, decided });
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
  return followed;
}
