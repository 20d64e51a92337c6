import { derivedId, inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';

/**
 * Somebody names a content of a vessel that was over by then, because its top-up was recorded late or a tablet had not heard of it: what they took was of
 * that content or of the one that was in the vessel then, nobody knows how much of each. It is read so whichever was recorded first, and no row is kept of
 * it. After this many days a name is no slip of the tablet's any more.
 */
export const lateDays = 14;
const lateMs = lateDays * 86_400_000;

/** The row that says that a content is in its vessel. */
export const contentId = (lot: string): string => derivedId(lot, 'content');

/** Told apart once for each row: a hash for each content that a vessel ever had, asked at each use of it, is most of what a standing costs. */
const told = new WeakMap<Row<'inUse'>, boolean>();
function saysContent(use: Row<'inUse'>): boolean {
  const known = told.get(use);
  if (known !== undefined) return known;
  const says = use.id === contentId(use.lot);
  told.set(use, says);
  return says;
}

type Taken = Pick<Row<'flow'>, 'source' | 'target' | 'at'>;

const isContent = (state: State, lot: string): boolean => state.knows({ in: 'lot', id: lot }) && state.get('lot', lot)?.type === 'vessel';

const ownNeeds = (lot: string): Need[] => [
  { in: 'inUse', by: 'lot', value: lot },
  { in: 'emptied', by: 'lot', value: lot },
];
const isKnown = (state: State, needs: readonly Need[]): boolean => needs.every((need) => state.knows(need));

/** The vessel that a content is in; undefined where it is none, or where that is not known yet. */
const vesselOf = (state: State, lot: string): string | undefined =>
  isContent(state, lot) && isKnown(state, ownNeeds(lot)) ? state.find('inUse', 'lot', lot).find(saysContent)?.station : undefined;

const wasOver = (state: State, lot: string, vessel: string, at: string): boolean =>
  state.find('emptied', 'lot', lot).some((e) => e.station === vessel && e.at <= at);

const ofVessel = (vessel: string): Need => ({ in: 'inUse', by: 'station', value: vessel });
const contentsOf = (state: State, vessel: string): Row<'inUse'>[] => inOrder(state.find('inUse', 'station', vessel).filter(saysContent));

/** What has to be looked for, as far as can be named now, before `flowsInto` can be asked of a lot. Needs its flows and the lots that they come from. */
export const laterNeeds = (state: State, lot: string): Need[] =>
  state.knows({ in: 'flow', by: 'target', value: lot })
    ? state.find('flow', 'target', lot).flatMap(({ source, at }) => {
        const vessel = vesselOf(state, source);
        if (vessel === undefined) return isContent(state, source) ? ownNeeds(source) : [];
        return wasOver(state, source, vessel, at) ? [...ownNeeds(source), ofVessel(vessel)] : ownNeeds(source);
      })
    : [];

/** The content that was in the vessel when an earlier one was named; null where the one that is named was there. */
function laterContent(state: State, { source, target, at }: Taken): string | null {
  const vessel = vesselOf(state, source);
  if (vessel === undefined || !wasOver(state, source, vessel, at) || !state.knows(ofVessel(vessel))) return null;
  const contents = contentsOf(state, vessel);
  const named = contents.findIndex((c) => c.lot === source);
  const then = contents.findLastIndex((c) => c.at <= at);
  const content = contents[then];
  if (named < 0 || then <= named || !content || content.lot === target) return null;
  return isLate(contents, named, content) ? content.lot : null;
}

const isLate = (contents: readonly Row<'inUse'>[], named: number, then: Row<'inUse'>): boolean =>
  Date.parse(contents[named + 1]?.at ?? then.at) > Date.parse(then.at) - lateMs;

/** What went into a lot, as it is to be read: of a content that was over, any of two. Needs `laterNeeds`. */
export const flowsInto = (state: State, lot: string): Row<'flow'>[] =>
  state.find('flow', 'target', lot).flatMap((f) => {
    const later = laterContent(state, f);
    const either = { ...f, certain: false, anyOf: f.anyOf ?? f.id };
    return later === null ? [f] : [either, { ...either, source: later }];
  });

/** What has to be looked for, as far as can be named now, before `takenWhenOver` can be asked of a lot. Needs its flows. */
export function overNeeds(state: State, lot: string): Need[] {
  if (!isContent(state, lot)) return [];
  const vessel = vesselOf(state, lot);
  return [...ownNeeds(lot), ...(vessel === undefined ? [] : [ofVessel(vessel)])];
}

/** What was taken by the name of this lot when it was over, by its flows' ids: perhaps of the content that came after it. Needs `overNeeds`. */
export const takenWhenOver = (state: State, lot: string): ReadonlySet<string> =>
  new Set(state.find('flow', 'source', lot).flatMap((f) => (laterContent(state, f) === null ? [] : [f.id])));

/** What has to be looked for, as far as can be named now, before `takenLate` can be asked of a lot. Needs the lot. */
export function takenLateNeeds(state: State, lot: string): Need[] {
  if (!isContent(state, lot)) return [];
  const vessel = vesselOf(state, lot);
  if (vessel === undefined || !state.knows(ofVessel(vessel)))
    return [...ownNeeds(lot), ...(vessel === undefined ? [] : [ofVessel(vessel)])];
  const named = namedBefore(state, vessel, lot).flatMap((c): Need[] => [
    { in: 'lot', id: c },
    ...ownNeeds(c),
    { in: 'flow', by: 'source', value: c },
  ]);
  return [...ownNeeds(lot), ofVessel(vessel), ...named];
}

/** The contents before this one that somebody may still have named. */
function namedBefore(state: State, vessel: string, lot: string): string[] {
  const contents = contentsOf(state, vessel);
  const then = contents.findIndex((c) => c.lot === lot);
  return contents.flatMap((c, i) => (i < then && isLate(contents, i, contents[then] ?? c) ? [c.lot] : []));
}

/** The lots that took from this content by the name of an earlier one. Needs `takenLateNeeds`. */
export function takenLate(state: State, lot: string): string[] {
  const vessel = vesselOf(state, lot);
  if (vessel === undefined || !state.knows(ofVessel(vessel))) return [];
  return namedBefore(state, vessel, lot)
    .filter((c) => isKnown(state, [...ownNeeds(c), { in: 'flow', by: 'source', value: c }]))
    .flatMap((c) => state.find('flow', 'source', c))
    .flatMap((f) => (laterContent(state, f) === lot ? [f.target] : []));
}
