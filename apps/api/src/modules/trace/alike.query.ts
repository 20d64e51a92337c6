import type { Coded, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { codeNow } from '../../platform/ledger/index.js';

type Lot = TableRow<'lot'>;
export interface AlikeRow extends Pick<Lot, 'id' | 'name' | 'material' | 'at' | 'book'> {
  readonly code: Computed<Coded['code']>;
  readonly supplierName: Maybe<Row<'party'>>['name'];
  /** The lot that it was asked about. */
  readonly of: Lot['id'];
  readonly ofCode: Computed<Coded['code']>;
}

/**
 * The lots from outside that are called as these are (`isAlike` in records), each with the one that it is called as, the latest first. Those that turned out to be another
 * lot are that lot.
 */
export async function calledAlike(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly AlikeRow[]> {
  const { rows } = await client.query<AlikeRow>(
    `SELECT l.id, l.name, l.material, l.at, l.book, l.code, p.name AS "supplierName", o.id AS of, o.code AS "ofCode"
     FROM unnest($2::uuid[]) a(lot)
     CROSS JOIN LATERAL (SELECT l.id, l.material, ${codeNow('l')} AS code FROM lot l WHERE l.organisation = $1 AND l.id = a.lot AND l.code_state <> 'own' OFFSET 0) o
     CROSS JOIN unnest('{received,placeholder,withdrawn}'::text[]) t(type)
     CROSS JOIN LATERAL (SELECT l.id, l.name, l.material, l.at, l.book, l.supplier, ${codeNow('l')} AS code FROM lot l
       WHERE l.organisation = $1 AND (l.material, l.type, l.at) >= (o.material, t.type, '-infinity') AND (l.material, l.type, l.at) <= (o.material, t.type, 'infinity')
         AND l.code_state <> 'own' AND l.id <> o.id OFFSET 0) l
     LEFT JOIN LATERAL (SELECT name FROM party WHERE organisation = $1 AND party = l.supplier ORDER BY since DESC, seq DESC LIMIT 1) p ON true
     WHERE lot_code_key(l.code) = lot_code_key(o.code)
       AND NOT EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.lot = l.id AND i.same IS NOT NULL)
     ORDER BY l.at DESC, l.id`,
    [organisation, lots],
  );
  return rows;
}
