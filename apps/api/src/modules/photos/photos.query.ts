import type { ClientBase } from 'pg';
import type { Computed, ReadTransaction, TableRow } from '../../platform/database/index.js';

/** Keeps a photo by its hash; one that is there already is the same one. */
export async function keepPhoto(client: ClientBase, p: TableRow<'photo'>): Promise<void> {
  await client.query({
    name: 'keep photo',
    text: 'INSERT INTO photo (organisation, id, book, media_type, bytes, by, device, at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8) ON CONFLICT DO NOTHING',
    values: [p.organisation, p.id, p.book, p.mediaType, p.bytes, p.by, p.device, p.at],
  });
}

interface Sent {
  readonly photos: Computed<number>;
  readonly bytes: Computed<number>;
  /** When the first of them came; null where there is none. */
  readonly first: Computed<string | null>;
}

/** What came since then from the device of a photo, or without a device from its person; undefined where that photo is kept already. */
export async function sentBefore(client: ClientBase, p: TableRow<'photo'>, since: string): Promise<Sent | undefined> {
  const { rows } = await client.query<Sent>({
    name: 'photos sent before',
    text: `SELECT count(*)::int AS photos, COALESCE(sum(octet_length(s.bytes)), 0)::float8 AS bytes, min(s.at) AS first
             FROM photo s WHERE s.organisation = $1 AND s.at > $2 AND s.device IS NOT DISTINCT FROM $3 AND ($3::uuid IS NOT NULL OR s.by = $4)
           HAVING NOT EXISTS (SELECT 1 FROM photo p WHERE p.organisation = $1 AND p.book = $5 AND p.id = $6)`,
    values: [p.organisation, since, p.device, p.by, p.book, p.id],
  });
  return rows[0];
}

export const photoOf = (tx: ReadTransaction, organisation: string, book: string, id: string) =>
  tx.photo.findUnique({ where: { organisation_book_id: { organisation, book, id } }, select: { mediaType: true, bytes: true } });
