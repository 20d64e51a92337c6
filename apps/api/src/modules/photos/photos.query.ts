import type { ClientBase } from 'pg';
import type { ReadTransaction, TableRow } from '../../platform/database/index.js';

/** Keeps a photo by its hash; one that is there already is the same one. */
export async function keepPhoto(client: ClientBase, p: TableRow<'photo'>): Promise<void> {
  await client.query({
    name: 'keep photo',
    text: 'INSERT INTO photo (organisation, id, book, media_type, bytes, by, at) VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT DO NOTHING',
    values: [p.organisation, p.id, p.book, p.mediaType, p.bytes, p.by, p.at],
  });
}

export const photoOf = (tx: ReadTransaction, organisation: string, book: string, id: string) =>
  tx.photo.findUnique({ where: { organisation_book_id: { organisation, book, id } }, select: { mediaType: true, bytes: true } });
