import { WorkingSet, type Need, type State } from '@bakehouse/records';
import { needsOfStandings, standingsOf, type Standing } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';
import { reachedAmong } from './reached-among.query.js';

export interface Standings {
  readonly standings: ReadonlyMap<string, Standing>;
  /** The records that say so, and what else was asked for: of a lot that no open concern reaches, what came and went of it alone. */
  readonly state: State;
}

/**
 * How each of these lots stands. Of those that no open concern may reach it is asked what is left of them, and not what they come of; of the others all that the
 * door decides with. What else is asked of the same records comes in the same rounds.
 */
export async function standingOf(
  client: ClientBase,
  books: readonly BookRef[],
  lots: readonly string[],
  at: string,
  alsoNeeds: (known: State) => readonly Need[] = () => [],
): Promise<Standings> {
  const [first] = books;
  if (!first) return followedStandingOf(client, books, lots, at, alsoNeeds);
  const work = new WorkingSet();
  const unanswered = new Set(lots);
  /** A lot of which all is known that its own rows name is not asked about again. */
  const left = (known: State): Need[] => {
    const needs = [...alsoNeeds(known)];
    for (const lot of unanswered) {
      const ofLot = needsOfStandings(known, [lot], []);
      if (ofLot.every((need) => known.knows(need))) unanswered.delete(lot);
      else needs.push(...ofLot);
    }
    return needs;
  };
  // Not waited for one by one: both go out in the same round trip.
  const [among] = await Promise.all([reachedAmong(client, first.organisation, lots, at), loadState(client, books, left, { work })]);
  const under = among === null ? lots : lots.filter((lot) => among.has(lot));
  if (under.length > 0) await loadState(client, books, (known) => [...needsOfStandings(known, lots, under), ...alsoNeeds(known)], { work });
  return { state: work, standings: standingsOf(work, lots, at, under) };
}

/** The same with each lot followed to all that it comes of, whatever is on watch. */
export async function followedStandingOf(
  client: ClientBase,
  books: readonly BookRef[],
  lots: readonly string[],
  at: string,
  alsoNeeds: (known: State) => readonly Need[] = () => [],
): Promise<Standings> {
  const state = await loadState(client, books, (known) => [...needsOfStandings(known, lots), ...alsoNeeds(known)]);
  return { state, standings: standingsOf(state, lots, at) };
}
