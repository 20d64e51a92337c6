import type { ClientBase } from 'pg';

/** Committed when `work` returns, rolled back when it throws. `begin` may ask for another isolation, or to read only. */
export async function inTransaction<T>(client: ClientBase, work: () => Promise<T>, begin = 'BEGIN'): Promise<T> {
  await client.query(begin);
  try {
    const result = await work();
    await client.query('COMMIT');
    return result;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

/** From here on the open transaction sees this organisation: for what goes through all of them in one. */
export async function seeHouse(client: ClientBase, organisation: string): Promise<void> {
  await client.query("SELECT set_config('app.organisation', $1, true)", [organisation]);
}

/** Does something for one organisation in a transaction on a connection outside the service's pool, as the service's role or as the owner. */
export function inHouse<T>(client: ClientBase, organisation: string, work: () => Promise<T>, begin?: string): Promise<T> {
  return inTransaction(
    client,
    async () => {
      await seeHouse(client, organisation);
      return work();
    },
    begin,
  );
}
