import { happened, type Envelope, type Happened } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { readStored, type BookInfo } from '../../platform/ledger/index.js';
import type { Period } from './period.js';

type Entry = TableRow<'entry'>;
interface StoredRow extends Pick<Entry, 'root' | 'kind' | 'recordedAt' | 'person'>, Maybe<Pick<TableRow<'entryBody'>, 'bytes'>> {
  readonly entry: Entry['id'];
  readonly reason: Maybe<TableRow<'entryWord'>>['text'];
}
export interface VersionRow extends Omit<StoredRow, 'bytes'> {
  /** What was recorded, as the newest version of its kind says it; null where it is withheld. */
  readonly input: (Pick<Envelope, 'doneBy' | 'payload'> & Pick<Happened, 'at'>) | null;
}

/** More than this of one period are not shown, and that is said: a shorter period shows them. */
export const maxChains = 2000;

/** Every version of what was corrected or withdrawn in the period, or was recorded in it and corrected since. In order, the first version first. */
export async function correctedChains(
  client: ClientBase,
  site: BookInfo,
  { begins, ends }: Period,
): Promise<{ readonly versions: readonly VersionRow[]; readonly truncated: Computed<boolean> }> {
  const { rows } = await client.query<StoredRow>(
    `WITH later AS (SELECT root, recorded_at FROM entry WHERE organisation = $1 AND book = $2 AND id <> root),
       chain AS (
         SELECT root FROM later WHERE recorded_at >= $3 AND recorded_at < $4
         UNION SELECT l.root FROM later l JOIN entry f ON f.organisation = $1 AND f.id = l.root WHERE f.recorded_at >= $3 AND f.recorded_at < $4
         ORDER BY root LIMIT ${maxChains + 1})
     SELECT e.root, e.id AS entry, e.kind, e.recorded_at AS "recordedAt", w.text AS reason, b.bytes, e.person
     FROM chain JOIN entry e ON e.organisation = $1 AND e.root = chain.root AND e.book = $2
     LEFT JOIN entry_body b ON b.organisation = e.organisation AND b.book = e.book AND b.seq = e.seq
     LEFT JOIN entry_word w ON w.organisation = e.organisation AND w.entry = e.id AND w.key = 'reason'
     ORDER BY e.root, e.seq`,
    [site.organisation, site.id, begins, ends],
  );
  const chains = [...new Set(rows.map((r) => r.root))];
  const beyond = chains[maxChains];
  const shown = beyond === undefined ? rows : rows.filter((r) => r.root !== beyond);
  return { versions: shown.map(({ bytes, ...row }) => ({ ...row, input: bytes && inputOf(bytes) })), truncated: beyond !== undefined };
}

function inputOf(bytes: Buffer): VersionRow['input'] {
  const { read, stamp } = readStored(bytes);
  const { envelope, payload } = read;
  return { at: happened(envelope, stamp.recordedAt).at, doneBy: envelope.doneBy, payload };
}
