import type { ClientBase } from 'pg';

/**
 * Does something for one organisation as the owner, who is not held by the fence: committed when `work` returns, rolled back when it throws.
 * `begin` may ask for another isolation.
 */
export async function asOwner<T>(owner: ClientBase, organisation: string, work: () => Promise<T>, begin = 'BEGIN'): Promise<T> {
  await owner.query(begin);
  try {
    await owner.query("SELECT set_config('app.organisation', $1, true)", [organisation]);
    const result = await work();
    await owner.query('COMMIT');
    return result;
  } catch (error) {
    await owner.query('ROLLBACK');
    throw error;
  }
}
