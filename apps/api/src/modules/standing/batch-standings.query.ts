import type { BatchStanding } from '@bakehouse/contracts';
import { batchStandingsOf, needsOfBatchStandings } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

/** How each of these batches stands now, by the rules and the rows that the door decides with. */
export async function batchStandings(
  client: ClientBase,
  books: readonly BookRef[],
  batches: readonly string[],
  at: string,
): Promise<ReadonlyMap<string, BatchStanding>> {
  const state = await loadState(client, books, (known) => needsOfBatchStandings(known, batches));
  return batchStandingsOf(state, batches, at);
}
