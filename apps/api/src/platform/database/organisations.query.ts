import type { ClientBase } from 'pg';
import type { Computed, TableRow } from './row-types.js';

/** The ids of all organisations, past the fence: what is theirs is seen only within it, one after the other. As the service's role or as the owner. */
export async function organisationIds(client: Pick<ClientBase, 'query'>): Promise<readonly string[]> {
  const { rows } = await client.query<{ id: Computed<string> }>('SELECT every_organisation() AS id');
  return rows.map(({ id }) => id);
}

/** What every organisation of this database is called, as the owner sees them. */
export async function organisationNames(owner: ClientBase): Promise<readonly string[]> {
  const { rows } = await owner.query<Pick<TableRow<'organisation'>, 'name'>>('SELECT name FROM organisation');
  return rows.map((r) => r.name);
}
