import type { ClientBase } from 'pg';
import type { Holds, TableRow } from '../database/index.js';
import type { BookRef } from './types.js';

type Book = TableRow<'book'>;
export interface BookSize extends Pick<Book, 'name' | 'size' | 'projection'> {
  readonly book: Book['id'];
  readonly type: Holds<Book['type'], BookRef['type']>;
}

/** The books of organisation $1 with how many entries each holds. */
export const sizesSql = 'SELECT id AS book, name, type, size, projection FROM book WHERE organisation = $1 ORDER BY name, id';

/** How many entries each book holds at this moment, and which version made its rows: a scope is frozen at these, and an answer is as of these. */
export async function bookSizes(client: ClientBase, organisation: string): Promise<readonly BookSize[]> {
  const { rows } = await client.query<BookSize>({
    name: 'book sizes',
    text: sizesSql,
    values: [organisation],
  });
  return rows;
}
