import type { Need, State } from '@bakehouse/records';
import { needsOfStandings, standingsOf, type Standing } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

export interface Standings {
  readonly standings: ReadonlyMap<string, Standing>;
  /** The records that say so. */
  readonly state: State;
}

/** How each of these lots stands, by the rules and the rows that the door decides with. What else is asked of the same records comes in the same rounds. */
export async function standingOf(
  client: ClientBase,
  books: readonly BookRef[],
  lots: readonly string[],
  at: string,
  alsoNeeds: (known: State) => readonly Need[] = () => [],
): Promise<Standings> {
  const state = await loadState(client, books, (known) => [...needsOfStandings(known, lots), ...alsoNeeds(known)]);
  return { state, standings: standingsOf(state, lots, at) };
}
