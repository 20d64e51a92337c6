import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';

/** How far each book of a house is, and which version made its rows. */
export type Head = Pick<TableRow<'book'>, 'id' | 'size' | 'projection'>;

export async function headsOf(client: ClientBase, organisation: string): Promise<readonly Head[]> {
  const { rows } = await client.query<Head>({
    name: 'heads',
    text: 'SELECT id, size, projection FROM book WHERE organisation = $1 ORDER BY id',
    values: [organisation],
  });
  return rows;
}
