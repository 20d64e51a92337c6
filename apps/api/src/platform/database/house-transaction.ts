import type { ClientBase } from 'pg';

/**
 * Does something for one organisation on a connection outside the service's pool, as the service's role or as the owner: committed when `work` returns,
 * rolled back when it throws. `begin` may ask for another isolation.
 */
export async function inHouse<T>(client: ClientBase, organisation: string, work: () => Promise<T>, begin = 'BEGIN'): Promise<T> {
  await client.query(begin);
  try {
    await client.query("SELECT set_config('app.organisation', $1, true)", [organisation]);
    const result = await work();
    await client.query('COMMIT');
    return result;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}
