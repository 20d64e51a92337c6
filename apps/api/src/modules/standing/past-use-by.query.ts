import type { OpenThings } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import type { BookRef } from '../../platform/ledger/index.js';
import { standingOf } from './standing-of.query.js';

interface PastRow extends Pick<Row<'lot'>, 'name' | 'type'> {
  readonly lot: Row<'lot'>['id'];
  readonly code: Computed<Row<'lot'>['code']>;
  readonly useBy: Computed<string>;
}

/** The lots of a site that on this day of the site are past their own use-by date and not surely gone: nobody may have used any, so that no concern tells of them yet. The longest past first. */
export async function pastUseByAtSite(
  client: ClientBase,
  books: readonly BookRef[],
  site: BookRef,
  day: string,
  at: string,
): Promise<OpenThings['pastUseBy']> {
  const { rows } = await client.query<PastRow>(
    `SELECT l.id AS lot, l.name, l.type, coalesce(l.code, b.code) AS code, l.use_by AS "useBy"
     FROM (SELECT id FROM still_here WHERE organisation = $1 AND book = $2 OFFSET 0) s
     JOIN lot l ON l.organisation = $1 AND l.id = s.id LEFT JOIN batch b ON b.organisation = $1 AND b.id = l.id
     WHERE l.use_by < $3::date AND l.type <> 'withdrawn' ORDER BY l.use_by, l.id LIMIT 200`,
    [site.organisation, site.id, day],
  );
  const { standings } = await standingOf(
    client,
    books,
    rows.map((r) => r.lot),
    at,
  );
  return rows.flatMap((r) => (standings.get(r.lot)?.gone === false ? [{ ...r, trouble: 'expired-lot-used' as const }] : []));
}
