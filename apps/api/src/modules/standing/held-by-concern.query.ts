import { heldBy, heldNeeds, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

/** What a case or a deviation still holds and nobody decided about, worked out from what it begins at as the door does when somebody closes it. */
export async function heldByConcern(
  client: ClientBase,
  books: readonly BookRef[],
  concern: string,
  begins: readonly string[],
): Promise<readonly Row<'lot'>[]> {
  const state = await loadState(client, books, (known) => heldNeeds(known, begins));
  return heldBy(state, concern, begins);
}
