import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { codeNow, type BookRef } from '../../platform/ledger/index.js';

type LotRow = Pick<Row<'lot'>, 'id'>;

/** Of these lots, on hold anywhere in the house, those that may be one lot of the supplier's with one that came to a site (`isAlike` in records). */
export async function heldAlike(client: ClientBase, { organisation, id }: BookRef, held: readonly string[]): Promise<readonly string[]> {
  if (held.length === 0) return [];
  const { rows } = await client.query<LotRow>(
    `SELECT h.id FROM (SELECT l.id, l.material, ${codeNow('l')} AS code FROM lot l WHERE l.organisation = $1 AND l.id = ANY($3) AND l.code_state <> 'own' OFFSET 0) h
     WHERE EXISTS (SELECT FROM unnest('{received,placeholder}'::text[]) t(type) CROSS JOIN LATERAL (
       SELECT FROM (SELECT o.id, ${codeNow('o')} AS code FROM lot o WHERE o.organisation = $1 AND o.material = h.material AND o.type = t.type AND o.book = $2
         AND o.code_state <> 'own' AND o.id <> h.id OFFSET 0) o WHERE lot_code_key(o.code) = lot_code_key(h.code) LIMIT 1) one)
     ORDER BY h.id`,
    [organisation, id, held],
  );
  return rows.map((r) => r.id);
}
