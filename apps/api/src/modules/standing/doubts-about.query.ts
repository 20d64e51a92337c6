import type { DoubtView } from '@bakehouse/contracts';
import { trustNeeds, type Need, type ReadWith, type Row } from '@bakehouse/records';
import { doubtOn } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { loadState, type BookRef } from '../../platform/ledger/index.js';

/** The readings that cannot be trusted as the records stand now, by their ids: all checks of their instruments are looked at, of whichever day. */
export async function doubtsAbout(
  client: ClientBase,
  books: readonly BookRef[],
  readings: readonly (Pick<Row<'reading'>, 'id'> & ReadWith)[],
): Promise<ReadonlyMap<string, DoubtView>> {
  const instruments = [...new Set(readings.flatMap((r) => r.instrument ?? []))];
  const state = await loadState(client, books, (known) =>
    instruments.flatMap((id): Need[] => [{ in: 'instrument', id }, ...trustNeeds(known, id)]),
  );
  return new Map(
    readings.flatMap((r): [string, DoubtView][] => {
      const doubt = doubtOn({ state }, r);
      return doubt ? [[r.id, doubt]] : [];
    }),
  );
}
