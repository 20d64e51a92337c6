import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { concernBegins, takenLateSql, watched } from '../../platform/ledger/index.js';

type LotRow = { readonly lot: Row<'lot'>['id'] };

/**
 * Every lot that an open concern may reach now, at every site: one question, each step of it looked up by index. It begins at what is watched, so that it
 * follows what is open and not what ever was.
 */
export async function lotsUnderConcern(client: ClientBase, organisation: string): Promise<readonly string[]> {
  const { rows } = await client.query<LotRow>({
    name: 'lots under concern',
    text: `WITH RECURSIVE ${watched}, reached(lot) AS (
       SELECT b.lot FROM (${concernBegins}) b
       UNION SELECT n.lot FROM reached r CROSS JOIN LATERAL (
         SELECT f.target AS lot FROM flow f WHERE f.organisation = $1 AND f.source = r.lot
         UNION ALL SELECT l.target FROM (${takenLateSql('r.lot')}) l
         UNION ALL SELECT i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.same = r.lot
         OFFSET 0) n
     ) SELECT r.lot FROM reached r CROSS JOIN LATERAL (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = r.lot OFFSET 0) l`,
    values: [organisation],
  });
  return rows.map((r) => r.lot);
}
