import { inOrder, sumOfKnown } from '@bakehouse/kernel';
import {
  concernsOf,
  isPastBestBefore,
  leftOf,
  stillToRead,
  unreleased,
  movementsOf,
  perhapsGone,
  troubleOf,
  workingSetOf,
  type LeavingTrouble,
  type LotTrouble,
  type Reaching,
  type Snapshot,
  type State,
  type SubjectType,
} from '@bakehouse/records';

/**
 * Rows, the same rows looked up, the instant that the screen is for, and the zone on the wall. Views are worked out from this alone, on a tablet and on a
 * server.
 */
export interface Lookup {
  readonly snapshot: Snapshot;
  readonly state: State;
  readonly at: string;
  readonly zone: string;
  /** The site whose screen it is; null where it is for the whole house. */
  readonly site: string | null;
  /** The concerns that reach each lot of the snapshot: worked out once, read by everything that says how a lot stands. */
  readonly concerns: ReadonlyMap<string, readonly Reaching[]>;
}

/** Prepares rows for the views; do it once for all the views of a screen. */
export function lookupOf(snapshot: Snapshot, at: string, zone: string, site: string | null = null): Lookup {
  const state = workingSetOf(snapshot);
  const concerns = concernsOf(
    state,
    snapshot.lot.map((l) => l.id),
    null,
    at,
  );
  return { snapshot, state, at, zone, site, concerns };
}

/** Why a lot should not be used or sent out now, or null. */
export const troubleOn = ({ state, concerns, at, zone }: Lookup, lot: string): LotTrouble | null =>
  troubleOf(state, lot, concerns.get(lot) ?? [], at, zone);

/** Whether something on record speaks against it. A date alone says nothing of what ran out, or is elsewhere. */
export const isOnHoldOrRefused = (trouble: LotTrouble | null): boolean => trouble === 'held-lot-used' || trouble === 'refused-lot-used';

/** What only asks for a look before a lot is used. */
export type Warned = 'past-best-before' | 'still-to-read';

/**
 * What is said of a lot where it is offered: why it should not be used, or what asks for a look; null where nothing does. What a batch waits for is said by its
 * release.
 */
export function saidOf(lookup: Lookup, lot: string): LotTrouble | Warned | null {
  const trouble = troubleOn(lookup, lot);
  if (trouble !== null) return trouble;
  if (isPastBestBefore(lookup.state, lot, lookup.at, lookup.zone)) return 'past-best-before';
  const isBatch = lookup.state.get('batch', lot) !== undefined;
  return !isBatch && stillToRead(lookup.state, lot).length > 0 ? 'still-to-read' : null;
}

/** Why a lot should not be sent out or put on the counter now, or null. */
export const leavingOn = (lookup: Lookup, lot: string): LeavingTrouble | null =>
  troubleOn(lookup, lot) ?? (unreleased(lookup.state, lot, lookup.at) ? 'not-released' : null);

/** The name of the subject of a record; null where the name is no longer there. The caller names a site itself. */
export function nameOf({ state }: Lookup, type: SubjectType, id: string): string | null {
  switch (type) {
    case 'make':
      return state.get('make', id)?.formulaName ?? null;
    case 'run':
      return state.get('run', id)?.productName ?? null;
    case 'batch':
      return state.get('batch', id)?.productName ?? null;
    case 'lot':
      return state.get('lot', id)?.name ?? null;
    case 'place':
      return state.get('place', id)?.name ?? null;
    case 'instrument':
      return state.get('instrument', id)?.name ?? null;
    case 'delivery':
      return state.get('delivery', id)?.note ?? null;
    case 'load':
      return [...new Set(inOrder(state.find('loadLine', 'load', id)).map((l) => l.productName))].join(', ') || null;
    case 'site':
      return null;
  }
}

export interface LotCode {
  readonly code: string | null;
  readonly known: 'on-it' | 'none-on-it' | 'not-known-yet' | 'own' | 'named-later';
}

/** A lot's code, and how it is known: from the pack, or named later; a placeholder that is the same as a known lot has that lot's code. */
export function codeOf({ state }: Lookup, lot: string): LotCode {
  const row = state.get('lot', lot);
  const named = inOrder(state.find('lotIdentified', 'lot', lot)).at(-1);
  if (named)
    return { code: named.code ?? (named.same === null ? null : (state.get('lot', named.same)?.code ?? null)), known: 'named-later' };
  return { code: row?.code ?? null, known: row?.codeState ?? 'not-known-yet' };
}

/** What is left of a lot in the house by the records, in milligrams; null where they cannot say. Below zero where more went than there was. */
export interface LeftRange {
  /** Taken off each of them, what was taken as one of several lots would leave none of them on the page: here none of it is. */
  readonly leftMg: number | null;
  /** So much less it is where what went as one of several lots went of this one; null where nobody can say. */
  readonly perhapsMg: number | null;
}

export function leftRangeIn({ state, at }: Pick<Lookup, 'state' | 'at'>, lot: string): LeftRange {
  const moved = movementsOf(state, lot, at, { oneOfSeveral: 'left-out' });
  return { leftMg: leftOf(state.get('lot', lot)?.mg ?? null, moved, 'mg'), perhapsMg: perhapsGone(moved, 'mg') };
}

/** The most that is left of it: the one figure where nothing went as one of several lots. */
export const leftInLot = (lookup: Pick<Lookup, 'state' | 'at'>, lot: string): number | null => leftRangeIn(lookup, lot).leftMg;

/** How much more of these lots a use takes than is left of all of them together by the records: what is there then, or null where it is enough, or nobody can say. */
export function tooLittleFor(lookup: Pick<Lookup, 'state' | 'at'>, lots: readonly string[], mg: number | null): number | null {
  const there = sumOfKnown(lots.map((lot) => leftInLot(lookup, lot)));
  return mg === null || there === null || lots.length === 0 || mg <= there ? null : Math.max(0, there);
}

/** By how much more was taken of a lot than there was by the records; null where it was not, or nobody can say. */
export function takenBeyond(lookup: Pick<Lookup, 'state' | 'at'>, lot: string): number | null {
  const left = leftInLot(lookup, lot);
  return left === null || left >= 0 ? null : -left;
}
