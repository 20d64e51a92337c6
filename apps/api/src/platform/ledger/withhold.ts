import { collections } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { rebuild } from './rebuild.js';
import type { BookRef } from './types.js';

const staying = Object.values(collections).filter((c) => c.stays);

/**
 * The entries of a book whose bodies may go: of chains that begin with this kind and whose last entry was received before this day began at the
 * book. A chain goes whole, its corrections and withdrawals with it, so that none is left that says half of it; one that opened what stays (a
 * deviation) is kept.
 */
export async function oldBodies(client: ClientBase, book: BookRef, kind: string, before: string): Promise<readonly string[]> {
  const keeps = staying.map(
    ({ name }) =>
      `AND NOT EXISTS (SELECT FROM "${name}" s JOIN entry x ON x.organisation = $1 AND x.id = s.entry WHERE s.organisation = $1 AND x.root = c.root)`,
  );
  const { rows } = await client.query<Pick<TableRow<'entry'>, 'id'>>(
    `WITH c AS (
       SELECT e.root FROM entry f JOIN entry e ON e.organisation = $1 AND e.root = f.id
       WHERE f.organisation = $1 AND f.book = $2 AND f.kind = $3 AND f.id = f.root
       GROUP BY e.root HAVING max(e.recorded_at) < $4::date::timestamp AT TIME ZONE $5)
     SELECT e.id FROM c JOIN entry e ON e.organisation = $1 AND e.root = c.root JOIN entry_body b USING (organisation, book, seq)
     WHERE true ${keeps.join(' ')}`,
    [book.organisation, book.id, kind, before, book.zone],
  );
  return rows.map((r) => r.id);
}

/**
 * Takes away the bodies of these entries and the words beside them, and makes the book's rows again without them; leaves and columns stay. As the
 * owner, in the caller's transaction: the service has no right to it.
 */
export async function withhold(client: ClientBase, book: BookRef, entries: readonly string[]): Promise<void> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 AND id = $2 FOR UPDATE', [book.organisation, book.id]);
  await client.query('DELETE FROM entry_word WHERE organisation = $1 AND entry = ANY($2)', [book.organisation, entries]);
  await client.query(
    `DELETE FROM entry_body b USING entry e WHERE e.organisation = $1 AND e.book = $2 AND e.id = ANY($3)
       AND b.organisation = e.organisation AND b.book = e.book AND b.seq = e.seq`,
    [book.organisation, book.id, entries],
  );
  await rebuild(client, book);
}
