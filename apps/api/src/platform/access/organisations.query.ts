import type { ClientBase } from 'pg';

/** What every organisation of this database is called, as the owner sees them. */
export async function organisationNames(owner: ClientBase): Promise<readonly string[]> {
  const { rows } = await owner.query<{ name: string }>('SELECT name FROM organisation');
  return rows.map((r) => r.name);
}
