import type { ClientBase } from 'pg';

/** How many entries each book holds at this moment: a scope is frozen at these. */
export async function bookSizes(client: ClientBase, organisation: string): Promise<{ book: string; name: string; size: number }[]> {
  const { rows } = await client.query<{ book: string; name: string; size: number }>('SELECT id AS book, name, size FROM book WHERE organisation = $1 ORDER BY name', [organisation]);
  return rows;
}
