import { doubtAbout, trustNeeds, type Doubt, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

/** The readings that cannot be trusted as the records stand now, checks of their instruments before and after the period looked at too. */
export async function doubtsAbout(
  client: ClientBase,
  books: readonly BookRef[],
  readings: readonly Row<'reading'>[],
): Promise<Map<string, Doubt>> {
  const instruments = [...new Set(readings.flatMap((r) => r.instrument ?? []))];
  const state = await loadState(client, books, (known) => instruments.flatMap((i) => trustNeeds(known, i)));
  return new Map(
    readings.flatMap((r): [string, Doubt][] => {
      const doubt = doubtAbout(state, r);
      return doubt ? [[r.id, doubt]] : [];
    }),
  );
}
