import { notReachedBy, notReachedNeeds, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

type ScopeRow = Pick<Row<'recallScopeLot'>, 'recall' | 'lot'>;
type CallRow = Pick<Row<'recallContact'>, 'recall' | 'party' | 'answer' | 'at'>;

/** How many customers each of these cases has still to reach: food of it went to them, and none of its calls told them. */
export async function toReach(
  client: ClientBase,
  books: readonly BookRef[],
  organisation: string,
  cases: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  if (cases.length === 0) return new Map();
  const { rows: scope } = await client.query<ScopeRow>(
    'SELECT recall, lot FROM recall_scope_lot WHERE organisation = $1 AND recall = ANY($2) AND begins ORDER BY recall, lot',
    [organisation, cases],
  );
  const { rows: calls } = await client.query<CallRow>(
    'SELECT recall, party, answer, at FROM recall_contact WHERE organisation = $1 AND recall = ANY($2) ORDER BY at, seq',
    [organisation, cases],
  );
  const begins = [...new Set(scope.map((s) => s.lot))];
  const state = await loadState(client, books, (known) => notReachedNeeds(known, begins));
  return new Map(
    cases.map((id) => [
      id,
      notReachedBy(
        state,
        calls.filter((c) => c.recall === id),
        scope.filter((s) => s.recall === id).map((s) => s.lot),
      ).length,
    ]),
  );
}
