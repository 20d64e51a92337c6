import type { OpenThings } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import { pastUseByHere, pastUseByNeeds, standingView } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import { siteNameIn, toOwnShop, type BookInfo, type BookRef } from '../../platform/ledger/index.js';
import { standingOf } from './standing-of.query.js';

interface MayBePast extends Pick<Row<'lot'>, 'name' | 'type'>, Pick<TableRow<'lot'>, 'book'> {
  readonly lot: Row<'lot'>['id'];
  readonly code: Computed<Row<'lot'>['code']>;
}

const most = 400;

/**
 * The lots at a site that on this day of the site are past a use-by date and not surely gone: nobody may have used any, so that no concern tells of them yet. What is
 * looked up is what may be, its own date past or a date of something else counting for it; the rule that the door uses judges each.
 */
export async function pastUseByAtSite(
  client: ClientBase,
  books: readonly BookInfo[],
  site: BookRef,
  day: string,
  at: string,
): Promise<OpenThings['pastUseBy']> {
  const { rows } = await client.query<MayBePast>(
    `SELECT l.id AS lot, l.book, l.name, l.type, coalesce(l.code, b.code) AS code
     FROM (SELECT id FROM still_here WHERE organisation = $1 AND book = $2
       UNION ALL SELECT s.id FROM (SELECT id FROM still_here WHERE organisation = $1 AND book <> $2 OFFSET 0) s
         WHERE EXISTS (SELECT FROM (SELECT * FROM departure WHERE organisation = $1 AND lot = s.id OFFSET 0) d WHERE ${toOwnShop('d')})
           OR EXISTS (SELECT FROM on_counter c WHERE c.organisation = $1 AND c.lot = s.id AND c.book = $2) OFFSET 0) s
     JOIN lot l ON l.organisation = $1 AND l.id = s.id LEFT JOIN batch b ON b.organisation = $1 AND b.id = l.id
     WHERE l.type <> 'withdrawn' AND (l.use_by < $3::date OR l.type = 'vessel'
       OR EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.lot = l.id AND i.same IS NOT NULL))
     ORDER BY coalesce(l.use_by, l.at), l.id LIMIT ${most}`,
    [site.organisation, site.id, day],
  );
  const lots = rows.map((r) => r.lot);
  const { state, standings } = await standingOf(client, books, lots, at, (known) => pastUseByNeeds(known, lots));
  const named = new Map(rows.map(({ book: _book, ...row }) => [row.lot, row]));
  const siteName = siteNameIn(books);
  const others = books.some((b) => b.id !== site.id && b.type === 'site');
  return pastUseByHere(state, rows, standings, { site: site.id, zone: site.zone, others, at }).flatMap(({ lot, useBy, shelves }) => {
    const row = named.get(lot);
    const said = standingView({ gone: false, concerns: [], shelves }, siteName);
    return row ? [{ ...row, useBy, trouble: 'expired-lot-used' as const, shelves: said.shelves }] : [];
  });
}
