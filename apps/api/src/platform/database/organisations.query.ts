import type { ClientBase } from 'pg';
import type { Computed } from './row-types.js';

/** The ids of all organisations, past the fence: what is theirs is seen only within it, one after the other. As the service's role or as the owner. */
export async function organisationIds(client: Pick<ClientBase, 'query'>): Promise<readonly string[]> {
  const { rows } = await client.query<{ id: Computed<string> }>('SELECT every_organisation() AS id');
  return rows.map(({ id }) => id);
}
