import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { concernBegins, pastLifeAmong, watched } from '../../platform/ledger/index.js';
import { fromConcerns } from './from-concerns.js';

type LotRow = { readonly lot: Row<'lot'>['id'] };

/**
 * Every lot that an open concern may reach now, at every site: one question, each step of it looked up by index. It begins at what is watched, so that it
 * follows what is open and not what ever was. With what may be past its life by then and is still here, which no record tells of.
 */
export async function lotsUnderConcern(client: ClientBase, organisation: string, at: string): Promise<readonly string[]> {
  const { rows } = await client.query<LotRow>({
    name: 'lots under concern',
    text: `WITH RECURSIVE ${watched}, ${fromConcerns(`SELECT b.lot FROM (${concernBegins}) b`)}
     SELECT r.lot FROM (SELECT lot FROM reached UNION ${pastLifeAmong('SELECT id AS lot FROM still_here WHERE organisation = $1', '$2::timestamptz')}) r CROSS JOIN LATERAL (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = r.lot OFFSET 0) l`,
    values: [organisation, at],
  });
  return rows.map((r) => r.lot);
}
