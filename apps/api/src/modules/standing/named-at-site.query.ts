import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import { table, type BookRef } from '../../platform/ledger/index.js';
import { wasThereSql } from './was-there.query.js';

interface HeldRow extends Pick<Row<'lot'>, 'name' | 'type'> {
  readonly lot: Row<'lot'>['id'];
  readonly code: Computed<Row<'lot'>['code']>;
}

/** Where it shows that a lot of another site came here, though nothing was done with it yet. */
const cameHere = (['moved', 'returned', 'receiptDecision'] as const)
  .map((name) => `EXISTS (SELECT FROM ${table(name).name} f WHERE f.organisation = $1 AND f.lot = l.id AND f.book = $2)`)
  .join(' OR ');

/**
 * Of these lots the ones of a site and those that are there all the same, the newest first, as a list names them: what the site itself recorded something
 * about came there, wherever it was received or made.
 */
export async function namedAtSite(
  client: ClientBase,
  { organisation, id }: BookRef,
  lots: readonly string[],
  here: readonly string[],
): Promise<readonly HeldRow[]> {
  const { rows } = await client.query<HeldRow>(
    `SELECT l.id AS lot, l.name, l.type, coalesce(l.code, b.code) AS code FROM lot l LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id
     WHERE l.organisation = $1 AND (l.book = $2 OR l.id = ANY($4) OR ${wasThereSql('l.id', '$2')} OR ${cameHere}) AND l.id = ANY($3) ORDER BY l.at DESC, l.id`,
    [organisation, id, lots, here],
  );
  return rows;
}
