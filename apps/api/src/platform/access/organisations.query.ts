import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';

/** What every organisation of this database is called, as the owner sees them. */
export async function organisationNames(owner: ClientBase): Promise<readonly string[]> {
  const { rows } = await owner.query<Pick<TableRow<'organisation'>, 'name'>>('SELECT name FROM organisation');
  return rows.map((r) => r.name);
}
