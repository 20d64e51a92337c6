import { byTime, grouped } from '@bakehouse/kernel';
import { acceptedFlows, acceptedNeeds, allDecided } from './accepted-part.js';
import { concernNeeds, concernsAt, decidedAbout, type Concern, type Covers } from './concern.js';
import { clearSince, linkNeeds, linksInto, putOnNeeds, upstreamOf } from './links.js';
import { laterNeeds } from './later-content.js';
import { roomNeeds, roomsIn } from './room.js';
import { surelyReached, type Link, type RoomOf } from './surely.js';
import type { Need, State } from '../base/state.js';

/** A concern that reaches a lot, and the lot that it came by; null where it begins there. */
export interface Reaching {
  readonly concern: Concern;
  readonly by: string | null;
  /** Whether it surely holds what it begins at (`surelyReached`); otherwise it perhaps does, and is held all the same. */
  readonly certain: boolean;
}

/** What has to be looked for before `concernsOf` can be asked of these lots: ask again until it names nothing new. */
export const standingNeeds = (state: State, lots: readonly string[]): Need[] =>
  upstreamOf(state, lots).flatMap((lot) => [
    ...(state.knows({ in: 'flow', by: 'target', value: lot }) || clearSince(state, lot) !== null ? [] : linkNeeds(lot)),
    { in: 'lotIdentified', by: 'lot', value: lot },
    ...laterNeeds(state, lot),
    ...putOnNeeds(state, lot),
    ...acceptedNeeds(state, lot),
    ...concernNeeds(state, lot),
  ]);

/**
 * What has to be looked for besides, once `standingNeeds` names nothing new, before what went in as one of several lots is called certain: what there was of
 * each. Without it such a lot is called certain only where all of them are. Nothing decides by it, so only what shows it asks.
 */
export function certainNeeds(state: State, lots: readonly string[]): Need[] {
  const nodes = upstreamOf(state, lots);
  const either = nodes.flatMap((lot) => linksInto(state, lot)).filter((l) => l.anyOf !== null);
  if (either.length === 0) return [];
  const reached = new Set(allFollowed(state, nodes, null).flatMap((followed) => [...followed.keys()]));
  const targets = new Set(either.flatMap((l) => (reached.has(l.source) ? l.target : [])));
  const members = new Set(either.flatMap((l) => (targets.has(l.target) ? l.source : [])));
  return [...members].flatMap((lot) => roomNeeds(state, lot));
}

/**
 * The concerns that reach each of these lots: those that begin at it and those that came with the food, the newest first. A decision about one lot
 * ends a concern there, and beyond it where it covers what came of it as well. The same whatever order the records came in. `at` asks what was on record of then;
 * `now` when it is asked, so that what is past its life by then is told of: without it only what was done is. Where all that is left of a lot was accepted for use in parts, it is
 * on hold no longer; `inParts` asks for what speaks against more than these parts as well.
 */
export function concernsOf(
  state: State,
  lots: readonly string[],
  at: string | null = null,
  now: string | null = null,
  inParts = false,
): ReadonlyMap<string, readonly Reaching[]> {
  const found = new Map<string, Reaching[]>();
  const asked = new Set(lots);
  for (const followed of allFollowed(state, upstreamOf(state, lots), at, now))
    for (const [lot, { reaching, decided }] of followed) {
      if (decided !== undefined || !asked.has(lot)) continue;
      if (inParts || !allDecided(state, lot, reaching.concern.id, at)) found.set(lot, [...(found.get(lot) ?? []), reaching]);
    }
  return found;
}

/** Everything that reaches a lot, whether or not somebody decided about it there: a decision may be corrected, or go further than an earlier one. */
export const everReaching = (state: State, lot: string, now: string): readonly Reaching[] =>
  allFollowed(state, upstreamOf(state, [lot]), null, now).flatMap((followed) => followed.get(lot)?.reaching ?? []);

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
function allFollowed(
  state: State,
  nodes: readonly string[],
  at: string | null,
  now: string | null = null,
): ReadonlyMap<string, Followed>[] {
  const beginning = nodes.flatMap((lot) => concernsAt(state, lot, at, now)).sort(newestFirst);
  if (beginning.length === 0) return [];
  const links = [...nodes].sort().flatMap((lot) => linksInto(state, lot));
  const out = grouped(links, (l) => l.source);
  const roomOf = roomsIn(state);
  return [...grouped(beginning, (c) => c.id)].map(([concern, roots]) => {
    const carrying = links.filter((l) => l.id === undefined || !acceptedFlows(state, l.source, concern, at).has(l.id));
    const ways = carrying.length === links.length ? { links, out } : { links: carrying, out: grouped(carrying, (l) => l.source) };
    return follow(state, roots, { ...ways, roomOf }, at);
  });
}

const newestFirst = (b: Concern, a: Concern): number =>
  byTime({ at: a.since, id: `${a.id} ${a.lot}` }, { at: b.since, id: `${b.id} ${b.lot}` });

interface Ways {
  readonly links: readonly Link[];
  readonly out: ReadonlyMap<string, readonly Link[]>;
  readonly roomOf: RoomOf;
}

/**
 * One concern, from each lot that it begins at, along the links. What was taken of a lot before it began there does not carry it, unless that lot has it from another one as
 * well: then nobody can tell.
 */
function follow(state: State, roots: readonly Concern[], ways: Ways, at: string | null): ReadonlyMap<string, Followed> {
  const from = new Map(roots.flatMap(({ lot, takenFrom }) => (takenFrom === undefined ? [] : [[lot, takenFrom] as const])));
  if (from.size === 0) return followAll(state, roots, ways, at);
  for (;;) {
    const links = ways.links.filter((l) => l.at >= (from.get(l.source) ?? ''));
    const followed = followAll(state, roots, { ...ways, links, out: grouped(links, (l) => l.source) }, at);
    const also = links.filter((l) => from.has(l.target) && carries(followed, l.source)).map((l) => l.target);
    if (also.length === 0) return followed;
    for (const lot of also) from.delete(lot);
  }
}

const carries = (followed: ReadonlyMap<string, Followed>, lot: string): boolean => {
  const there = followed.get(lot);
  return there !== undefined && there.decided !== 'what-came-of-it';
};

/** The same along all of these: first where it surely is, then where it may be. */
function followAll(
  state: State,
  roots: readonly Concern[],
  { links, out, roomOf }: Ways,
  at: string | null,
): ReadonlyMap<string, Followed> {
  const begins = new Map(roots.map((concern) => [concern.lot, concern]));
  const decidedOn = new Map<string, Covers | undefined>();
  const decided = (lot: string): Covers | undefined => {
    if (!decidedOn.has(lot)) decidedOn.set(lot, roots[0] && decidedAbout(state, lot, roots[0], at));
    return decidedOn.get(lot);
  };
  const goesOn = (lot: string): boolean => decided(lot) !== 'what-came-of-it';
  const certain = [...begins.values()].filter((concern) => concern.certain).map((concern) => concern.lot);
  const reached = new Map<string, Reaching>();
  const reach = (lot: string, by: string | null, isCertain: boolean): void => {
    const concern = begins.get(lot) ?? reached.get(by ?? '')?.concern;
    if (concern && !reached.has(lot)) reached.set(lot, { concern, by: begins.has(lot) ? null : by, certain: isCertain });
  };
  for (const [lot, { by }] of surelyReached(certain, links, roomOf, goesOn)) reach(lot, by, true);
  for (const lot of begins.keys()) reach(lot, null, false);
  for (const lot of reached.keys()) if (goesOn(lot)) for (const { target } of out.get(lot) ?? []) reach(target, lot, false);
  return new Map([...reached].map(([lot, reaching]) => [lot, { reaching, decided: decided(lot) }]));
}
