import { localDay } from '@bakehouse/kernel';
import type * as z from 'zod';
import type { Need, State } from '../base/state.js';
import type { lotTrouble } from '../rows/stock.js';
import { withinAccepted } from './accepted-part.js';
import type { LeavingNow } from './leaving-now.js';
import { lifeEnds, lifeNeeds, livesOpened, openedNeeds } from '../standing/life.js';
import { linkNeeds } from '../standing/links.js';
import { concernsOf, standingNeeds, type Reaching } from '../standing/standings.js';
import { pastUseBy } from '../standing/use-by.js';

export type LotTrouble = z.infer<typeof lotTrouble>;

/** What has to be looked for first before `troubleWith` can be asked about a lot. */
export const lotNeeds = (lot: string): Need[] => [{ in: 'lot', id: lot }, ...linkNeeds(lot)];

/** The rest of it: ask again until it names nothing new. */
export const troubleNeeds = (state: State, lots: readonly string[]): Need[] => [
  ...standingNeeds(state, lots),
  ...lots.flatMap((lot) => lifeNeeds(state, lot)),
];
/** The same before `troubleUsing`. */
export const usingNeeds = (state: State, lots: readonly string[]): Need[] => [
  ...troubleNeeds(state, lots),
  ...lots.flatMap((lot) => openedNeeds(state, lot)),
];

/**
 * Why a lot should not be used at an instant, or null: something that speaks against it or against what it was made of or identified as, on record of
 * then; or past its use-by date where it is, or past the life of what was made here. Using it is a fact all the same and is never refused for this.
 * Past its use-by date comes first, and past its life where the plan holds that: the deviation about that use is what a decision about what was made of it names.
 * `counts`: which concerns do, of an amount that is known; a part of it may have been accepted for use.
 */
export function troubleWith(
  state: State,
  lot: string,
  at: string,
  zone: string,
  counts?: (reaching: Reaching) => boolean,
): LotTrouble | null {
  if (isPastUseBy(state, lot, at, zone)) return 'expired-lot-used';
  const reaching = concernsOf(state, [lot], at, at, counts !== undefined).get(lot) ?? [];
  if (reaching.some((r) => r.concern.type === 'past-life')) return 'past-life-used';
  return troubleOf(state, lot, counts === undefined ? reaching : reaching.filter(counts), at, zone);
}

/** The same of so much of a lot that is used, with `usingNeeds`: past its life once opened, too. A part that somebody accepted for use may be. A plan that only warns of that holds nothing, and the use opens a deviation all the same. Another sack may be opened at any time. */
export function troubleUsing(
  state: State,
  lot: string,
  { at, zone, station, ...used }: LeavingNow & { readonly at: string; readonly zone: string; readonly station: string | null },
): LotTrouble | null {
  const beyond = (r: Reaching): boolean => !withinAccepted(state, lot, r.concern.id, used, at);
  return troubleWith(state, lot, at, zone, beyond) ?? (isPastOpened(state, lot, at, station) ? 'past-life-used' : null);
}

/**
 * Whether what was used of a lot at an instant was past its life once opened: what stood open at that station, or else all that stood open anywhere. Where only
 * one of several was, nobody knows which was used. Needs `openedNeeds`.
 */
export function isPastOpened(state: State, lot: string, at: string, station: string | null): boolean {
  // what ran out at that very instant was what was used
  if (state.find('emptied', 'lot', lot).some((e) => e.at === at)) return false;
  const open = livesOpened(state, lot, at, station);
  return open.length > 0 && open.every((life) => life.ends < at);
}

/** The trouble that concerns make, whatever the day. */
export function troubleBy(reaching: readonly Reaching[]): LotTrouble | null {
  if (reaching.some((r) => r.concern.type === 'refused')) return 'refused-lot-used';
  return reaching.length > 0 ? 'held-lot-used' : null;
}

/** The trouble that concerns, a use-by date and a life make at an instant. */
export function troubleOf(state: State, lot: string, reaching: readonly Reaching[], at: string, zone: string): LotTrouble | null {
  const trouble = troubleBy(reaching);
  if (trouble !== null) return trouble;
  if (isPastUseBy(state, lot, at, zone)) return 'expired-lot-used';
  const keeps = lifeEnds(state, lot);
  return keeps !== null && keeps < at ? 'past-life-used' : null;
}

const isPastUseBy = (state: State, lot: string, at: string, zone: string): boolean =>
  pastUseBy(state, lot, () => localDay(at, zone), at).length > 0;

/** Whether a lot is past its best-before date: said where it is offered, and no deviation. */
export function isPastBestBefore(state: State, lot: string, at: string, zone: string): boolean {
  const bestBefore = state.get('lot', lot)?.bestBefore ?? null;
  return bestBefore !== null && bestBefore < localDay(at, zone);
}
