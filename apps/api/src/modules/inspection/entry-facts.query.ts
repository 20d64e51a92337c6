import type { Certainty } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Computed, Holds, TableRow } from '../../platform/database/index.js';

type Entry = TableRow<'entry'>;
/** What the entry behind a row says beside the row itself. It stays when the body is withheld. */
export interface EntryFacts extends Pick<Entry, 'id' | 'book' | 'kind' | 'recordedAt' | 'person' | 'until' | 'signedBy' | 'signedAt'> {
  readonly precision: Holds<Entry['precision'], Certainty>;
  readonly meaning: Entry['signedAs'];
  readonly words: Computed<Readonly<Record<string, string>>>;
}

/** Who recorded these entries and when, how surely the time is known, who signed, and the words that are still there. One query. */
export async function entryFacts(
  client: ClientBase,
  organisation: string,
  entries: readonly string[],
): Promise<ReadonlyMap<string, EntryFacts>> {
  const { rows } = await client.query<EntryFacts>(
    `SELECT e.id, e.book, e.kind, e.recorded_at AS "recordedAt", e.person, e.precision, e.until, e.signed_by AS "signedBy", e.signed_at AS "signedAt", e.signed_as AS meaning,
       coalesce((SELECT jsonb_object_agg(w.key, w.text) FROM entry_word w WHERE w.organisation = $1 AND w.entry = e.id), '{}') AS words
     FROM entry e WHERE e.organisation = $1 AND e.id = ANY($2)`,
    [organisation, entries],
  );
  return new Map(rows.map((r) => [r.id, r]));
}
