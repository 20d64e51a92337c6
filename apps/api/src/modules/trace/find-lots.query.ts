import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Lot = TableRow<'lot'>;
interface Found extends Pick<Lot, 'id' | 'name' | 'type' | 'at' | 'book' | 'mg'> {
  readonly supplierName: Maybe<Row<'party'>>['name'];
  readonly code: Computed<Lot['code']>;
  readonly pieces: Computed<Lot['pieces']>;
}

/** Lots by code (received, batch or given later) or by name, the newest first; exact codes before beginnings before names. */
export async function findLots(client: ClientBase, organisation: string, words: string, limit: number): Promise<readonly Found[]> {
  const like = `%${words.replace(/[\\%_]/g, '\\$&')}%`;
  const { rows } = await client.query<Found>(
    `WITH known AS (
       SELECT l.*, coalesce(l.code, b.code, i.code) AS known_code, b.pieces AS batch_pieces FROM lot l
       LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id
       LEFT JOIN LATERAL (SELECT code FROM lot_identified i WHERE i.organisation = l.organisation AND i.lot = l.id AND i.code IS NOT NULL ORDER BY i.seq DESC LIMIT 1) i ON true
       WHERE l.organisation = $1)
     SELECT k.id, k.name, k.type, k.known_code AS code, p.name AS "supplierName", k.at, k.book, k.mg, coalesce(k.pieces, k.batch_pieces) AS pieces FROM known k
     LEFT JOIN LATERAL (SELECT name FROM party p WHERE p.organisation = k.organisation AND p.party = k.supplier ORDER BY p.since DESC LIMIT 1) p ON true
     WHERE k.known_code ILIKE $2 OR k.name ILIKE $2
     ORDER BY (lower(k.known_code) = lower($3)) DESC NULLS LAST, (k.known_code ILIKE $2) DESC NULLS LAST, k.at DESC, k.id LIMIT $4`,
    [organisation, like, words, limit],
  );
  return rows;
}
