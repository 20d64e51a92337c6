import { backAgain, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { BookRef } from '../../platform/ledger/index.js';
import { houseDays } from '../standing/index.js';

/** Goods come back within two months, packed bread and dry goods from a customer's shelf among them; by then everything baked is long past its date. */
const returnDays = 60;
/** The newest of each: a device's answer stays small where nobody counts. */
const most = { runs: 100, batches: 200, departures: 300 };

const season = `$3::timestamptz - interval '${houseDays} days'`;

interface LotRow {
  readonly lot: Row<'lot'>['id'];
}

/**
 * Lots from before a night that it may still be about, whichever day they were made: runs with pieces that were not loaded, with their makes; batches not
 * all gone by the records; what went to somebody who may bring it back; what another site sent to a shop of the house. Rather more than fewer: the views
 * judge each by its rows.
 */
export async function inTheHouse(client: ClientBase, site: BookRef, from: string): Promise<readonly string[]> {
  const { rows } = await client.query<LotRow>({
    name: 'night in the house',
    text: `WITH own_shop AS (SELECT DISTINCT party FROM party WHERE organisation = $1 AND type = 'own-shop'),
     open_run AS (
       SELECT r.id, r.make FROM (
         SELECT x.id, max(x.at) AS at FROM (
           SELECT r.id, r.at, r.pieces AS unloaded, r.pieces AS uncounted FROM run r WHERE r.organisation = $1 AND r.book = $2 AND r.at < $3 AND r.at > ${season}
           UNION ALL SELECT l.run, NULL, -l.pieces, 0 FROM load_line l WHERE l.organisation = $1 AND l.book = $2 AND l.at > ${season}
           UNION ALL SELECT b.run, NULL, 0, -b.pieces - b.rejects FROM batch b WHERE b.organisation = $1 AND b.book = $2 AND b.at > ${season}) x
         GROUP BY x.id HAVING count(x.at) > 0 AND sum(x.unloaded) > 0 AND sum(x.uncounted) > 0) o
       CROSS JOIN LATERAL (SELECT id, make FROM run WHERE organisation = $1 AND id = o.id OFFSET 0) r
       WHERE NOT EXISTS (SELECT 1 FROM counted c WHERE c.organisation = $1 AND c.lot = r.id AND c.pieces = 0)
       ORDER BY o.at DESC LIMIT ${most.runs}),
     open_batch AS (
       SELECT b.id FROM (
         SELECT x.id, max(x.at) AS at FROM (
           SELECT b.id, b.at, b.pieces FROM batch b WHERE b.organisation = $1 AND b.book = $2 AND b.at < $3 AND b.at > ${season}
           UNION ALL SELECT n.lot, NULL, n.pieces FROM book k CROSS JOIN LATERAL (
             SELECT d.lot, -d.pieces AS pieces FROM departure d WHERE d.organisation = $1 AND d.book = k.id AND d.at > ${season} AND d.certain
               AND d.channel <> 'own-shop' AND (d.customer IS NULL OR d.customer NOT IN (SELECT party FROM own_shop))
             UNION ALL SELECT c.lot, c.pieces FROM returned c WHERE c.organisation = $1 AND c.book = k.id AND c.at > ${season} AND c.disposition = ANY($4)
             OFFSET 0) n WHERE k.organisation = $1) x
         GROUP BY x.id HAVING count(x.at) > 0 AND sum(x.pieces) > 0) b
       WHERE coalesce((SELECT c.pieces > 0 OR EXISTS (SELECT 1 FROM returned t WHERE t.organisation = $1 AND t.lot = b.id AND t.at > c.at)
           OR EXISTS (SELECT 1 FROM departure d WHERE d.organisation = $1 AND d.lot = b.id AND d.customer IN (SELECT party FROM own_shop))
           FROM counted c WHERE c.organisation = $1 AND c.lot = b.id AND (c.place IS NULL OR c.pieces > 0) ORDER BY c.at DESC, c.seq DESC LIMIT 1), true)
       ORDER BY b.at DESC LIMIT ${most.batches}),
     went AS (
       SELECT d.lot FROM departure d WHERE d.organisation = $1 AND d.book = $2 AND d.at < $3 AND d.at > $3::timestamptz - interval '${returnDays} days'
         AND d.channel IN ('round', 'dispatch', 'stall', 'own-shop', 'donation') ORDER BY d.at DESC LIMIT ${most.departures}),
     sent_here AS (
       SELECT s.lot FROM book k CROSS JOIN LATERAL (
         SELECT d.lot FROM departure d WHERE d.organisation = $1 AND d.book = k.id AND d.at > $3::timestamptz - interval '${returnDays} days'
           AND (d.channel = 'own-shop' OR d.customer IN (SELECT party FROM own_shop)) ORDER BY d.at DESC LIMIT ${most.departures}) s
       WHERE k.organisation = $1 AND k.type = 'site' AND k.id <> $2)
     SELECT id AS lot FROM open_run UNION SELECT make FROM open_run UNION SELECT id FROM open_batch UNION SELECT lot FROM went UNION SELECT lot FROM sent_here`,
    values: [site.organisation, site.id, from, backAgain],
  });
  return rows.map((r) => r.lot);
}
