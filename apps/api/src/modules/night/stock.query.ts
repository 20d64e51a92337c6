import type { ClientBase } from 'pg';
import type { TableRow } from '../../platform/database/index.js';
import { madeStillHere, receivedStillHere, type BookRef } from '../../platform/ledger/index.js';

/** The newest of each type: where nothing is ever counted, what came years ago stays "perhaps here". */
const most = 1_000;

export interface InStock {
  readonly lots: readonly TableRow<'lot'>['id'][];
  readonly leftOut: number;
}

/** Lots that came to a site or were made there for later, and may still be there: the newest first. */
export async function lotsInStock(client: ClientBase, { organisation, id }: BookRef): Promise<InStock> {
  const { rows } = await client.query<Pick<TableRow<'lot'>, 'id'>>({
    name: 'lots in stock',
    text: `SELECT w.lot AS id FROM unnest('{received,placeholder,vessel,made,old-dough}'::text[]) t(type) CROSS JOIN LATERAL (
        SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = t.type ORDER BY at DESC OFFSET 0) w
      WHERE EXISTS (${receivedStillHere}) OR EXISTS (${madeStillHere}) ORDER BY w.at DESC, w.lot`,
    values: [organisation, id],
  });
  return { lots: rows.slice(0, most).map((r) => r.id), leftOut: Math.max(0, rows.length - most) };
}
