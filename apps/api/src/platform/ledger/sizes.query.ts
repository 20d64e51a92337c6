import type { ClientBase } from 'pg';
import type { Holds, TableRow } from '../database/index.js';
import type { BookRef } from './types.js';

type Book = TableRow<'book'>;
export interface BookSize extends Pick<Book, 'name' | 'size'> {
  readonly book: Book['id'];
  readonly type: Holds<Book['type'], BookRef['type']>;
}

/** How many entries each book holds at this moment: a scope is frozen at these. */
export async function bookSizes(client: ClientBase, organisation: string): Promise<readonly BookSize[]> {
  const { rows } = await client.query<BookSize>('SELECT id AS book, name, type, size FROM book WHERE organisation = $1 ORDER BY name', [
    organisation,
  ]);
  return rows;
}
