import { inOrder } from '@bakehouse/kernel';
import {
  concernsOf,
  isPastBestBefore,
  leftOf,
  unreleased,
  movementsOf,
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
  );
  return { snapshot, state, at, zone, site, concerns };
}

/** Why a lot should not be used or sent out now, or null. */
export const troubleOn = ({ state, concerns, at, zone }: Lookup, lot: string): LotTrouble | null =>
  troubleOf(state, lot, concerns.get(lot) ?? [], at, zone);

/** What is said of a lot where it is offered: why it should not be used, or that it is past its best-before date; null where nothing is. */
export const saidOf = (lookup: Lookup, lot: string): LotTrouble | 'past-best-before' | null =>
  troubleOn(lookup, lot) ?? (isPastBestBefore(lookup.state, lot, lookup.at, lookup.zone) ? 'past-best-before' : null);

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

/**
 * What is left of a lot in the house by the records, in milligrams; null where they cannot say. What was taken as one of several lots is perhaps there still:
 * taken off each of them, none of them would be left on the page.
 */
export const leftInLot = ({ state, at }: Pick<Lookup, 'state' | 'at'>, lot: string): number | null =>
  leftOf(state.get('lot', lot)?.mg ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), 'mg');
