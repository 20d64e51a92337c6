import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import type { BookRef } from '../../platform/ledger/index.js';

interface HeldRow extends Pick<Row<'lot'>, 'name' | 'type'> {
  readonly lot: Row<'lot'>['id'];
  readonly code: Computed<Row<'lot'>['code']>;
}

/** Of these lots the ones of a site and those that are there all the same, the newest first, as a list names them. */
export async function namedAtSite(
  client: ClientBase,
  { organisation, id }: BookRef,
  lots: readonly string[],
  here: readonly string[],
): Promise<readonly HeldRow[]> {
  const { rows } = await client.query<HeldRow>(
    `SELECT l.id AS lot, l.name, l.type, coalesce(l.code, b.code) AS code FROM lot l LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id
     WHERE l.organisation = $1 AND (l.book = $2 OR l.id = ANY($4)) AND l.id = ANY($3) ORDER BY l.at DESC, l.id`,
    [organisation, id, lots, here],
  );
  return rows;
}
