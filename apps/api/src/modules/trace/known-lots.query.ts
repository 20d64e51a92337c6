import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

/** Whether all of these lots are this organisation's. */
export async function allKnown(client: ClientBase, organisation: string, lots: readonly string[]): Promise<boolean> {
  const { rows } = await client.query<{ known: Computed<number> }>(
    `SELECT count(*) AS known FROM unnest($2::uuid[]) a(lot)
     CROSS JOIN LATERAL (SELECT id FROM lot WHERE organisation = $1 AND id = a.lot OFFSET 0) l`,
    [organisation, [...new Set(lots)]],
  );
  return rows[0]?.known === new Set(lots).size;
}
