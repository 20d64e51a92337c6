import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import type { Job } from './types.js';

/** Of the books that entries name in their payloads, those of this organisation, with their type. Asked only where one is named. */
export async function booksNamed(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<ReadonlyMap<string, string>> {
  const ids = [...new Set(jobs.flatMap((j) => (j.read.ok ? j.read.books.map((b) => b.id) : [])))];
  if (ids.length === 0) return new Map();
  const { rows } = await client.query<Pick<TableRow<'book'>, 'id' | 'type'>>({
    name: 'books named',
    text: 'SELECT id, type FROM book WHERE organisation = $1 AND id = ANY($2)',
    values: [organisation, ids],
  });
  return new Map(rows.map((r) => [r.id, r.type]));
}
