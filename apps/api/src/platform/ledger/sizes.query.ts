import type { ClientBase } from 'pg';

export interface BookSize {
  readonly book: string;
  readonly name: string;
  readonly type: 'site' | 'organisation';
  readonly size: number;
}

/** How many entries each book holds at this moment: a scope is frozen at these. */
export async function bookSizes(client: ClientBase, organisation: string): Promise<readonly BookSize[]> {
  const { rows } = await client.query<BookSize>('SELECT id AS book, name, type, size FROM book WHERE organisation = $1 ORDER BY name', [
    organisation,
  ]);
  return rows;
}
