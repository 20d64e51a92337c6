import { leftOf, measureOf, movementNeeds, movementsOf } from '@bakehouse/records';
import type { LeftOfLot } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

/** What is left of these lots in the house by the records; a lot of which they cannot say is not among them. */
export async function leftOfLots(
  client: ClientBase,
  books: readonly BookRef[],
  lots: readonly string[],
  at: string,
): Promise<ReadonlyMap<string, LeftOfLot>> {
  if (lots.length === 0) return new Map();
  const state = await loadState(client, books, (known) => lots.flatMap((lot) => movementNeeds(known, lot)));
  return new Map(
    lots.flatMap((lot) => {
      const row = state.get('lot', lot);
      const unit = measureOf(row);
      const left = leftOf(row?.[unit] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), unit);
      return left === null ? [] : [[lot, { pieces: null, mg: null, [unit]: left }] as const];
    }),
  );
}
