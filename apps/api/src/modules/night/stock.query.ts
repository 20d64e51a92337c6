import type { ClientBase } from 'pg';
import type { TableRow } from '../../platform/database/index.js';
import { madeStillHere, receivedStillHere, type BookRef } from '../../platform/ledger/index.js';

/** Lots that came to a site or were made there for later, and may still be there: the newest first. */
export async function lotsInStock(client: ClientBase, { organisation, id }: BookRef): Promise<readonly TableRow<'lot'>['id'][]> {
  const { rows } = await client.query<Pick<TableRow<'lot'>, 'id'>>({
    name: 'lots in stock',
    text: `SELECT w.lot AS id FROM unnest('{received,placeholder,vessel,made,old-dough}'::text[]) t(type) CROSS JOIN LATERAL (
        SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = t.type ORDER BY at DESC OFFSET 0) w
      WHERE EXISTS (${receivedStillHere}) OR EXISTS (${madeStillHere}) ORDER BY w.at DESC, w.lot`,
    values: [organisation, id],
  });
  return rows.map((r) => r.id);
}
