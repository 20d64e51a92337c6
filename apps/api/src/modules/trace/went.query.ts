import type { TraceLot } from '@bakehouse/graph';
import { backAgain, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

type Went = Pick<TraceLot, 'awayMg' | 'leftMg' | 'leftAt'>;
interface WentRow {
  readonly lot: Row<'lot'>['id'];
  readonly awayMg: Computed<number>;
  readonly leftMg: Computed<Row<'counted'>['mg']>;
  readonly leftAt: Computed<Row<'counted'>['at'] | null>;
}

export const nothingWent: Went = { awayMg: 0, leftMg: null, leftAt: null };

/** Milligrams of a row: pieces by what one of them was scaled at. */
const mass = (row: string): string => `coalesce(${row}.mg, ${row}.pieces * s.scaling_mg)`;

/**
 * What of these lots surely was not used in the house: what left it or was thrown away, less what came back, and what was there when it was last
 * counted. What went to its own shop has not left it. A count after which something came in or back bounds nothing later, and is left out; so is everything where nobody knows how much came back.
 */
export async function wentOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<ReadonlyMap<string, Went>> {
  if (lots.length === 0) return new Map();
  const { rows } = await client.query<WentRow>(
    `SELECT a.lot, CASE WHEN back.unknown THEN 0 ELSE coalesce(d.mg, 0) - coalesce(back.mg, 0) END::bigint AS "awayMg", c.mg AS "leftMg", c.at AS "leftAt"
     FROM unnest($2::uuid[]) a(lot)
     LEFT JOIN LATERAL (SELECT b.run FROM batch b WHERE b.organisation = $1 AND b.id = a.lot OFFSET 0) b ON true
     LEFT JOIN LATERAL (SELECT r.scaling_mg FROM run r WHERE r.organisation = $1 AND r.id = coalesce(b.run, a.lot) OFFSET 0) s ON true
     LEFT JOIN LATERAL (SELECT ${mass('x')} AS mg, x.at FROM (
         SELECT * FROM counted n WHERE n.organisation = $1 AND n.lot = a.lot ORDER BY n.at DESC, n.seq DESC LIMIT 1) x
       WHERE ${mass('x')} IS NOT NULL
         AND NOT EXISTS (SELECT FROM flow f WHERE f.organisation = $1 AND f.target = a.lot AND f.at > x.at)
         AND NOT EXISTS (SELECT FROM returned t WHERE t.organisation = $1 AND t.lot = a.lot AND t.disposition = ANY($3) AND t.at > x.at)) c ON true
     LEFT JOIN LATERAL (SELECT sum(${mass('g')}) AS mg FROM departure g
       WHERE g.organisation = $1 AND g.lot = a.lot AND g.certain AND (c.at IS NULL OR g.at <= c.at) AND g.channel <> 'own-shop'
         AND coalesce((SELECT p.type FROM party p WHERE p.organisation = $1 AND p.party = g.customer ORDER BY p.since DESC, p.seq DESC LIMIT 1), '') <> 'own-shop'
       OFFSET 0) d ON true
     LEFT JOIN LATERAL (SELECT sum(${mass('t')}) AS mg, count(*) > count(${mass('t')}) AS unknown FROM returned t
       WHERE t.organisation = $1 AND t.lot = a.lot AND t.disposition = ANY($3) AND (c.at IS NULL OR t.at <= c.at) OFFSET 0) back ON true`,
    [organisation, lots, backAgain],
  );
  return new Map(rows.map(({ lot, ...went }) => [lot, went]));
}

/** The lots that stand beside one of these where something was used or went as one of several, and are not among these. */
export async function besideOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<string[]> {
  const { rows } = await client.query<Pick<WentRow, 'lot'>>(
    `SELECT DISTINCT o.lot FROM unnest($2::uuid[]) a(lot) CROSS JOIN LATERAL (
       (SELECT g.lot FROM departure d CROSS JOIN LATERAL (
          SELECT g.lot FROM departure g WHERE g.organisation = $1 AND g.trip = d.trip AND g.any_of = d.any_of OFFSET 0) g
        WHERE d.organisation = $1 AND d.lot = a.lot AND d.any_of IS NOT NULL OFFSET 0)
       UNION ALL
       (SELECT g.source FROM flow f CROSS JOIN LATERAL (
          SELECT g.source FROM flow g WHERE g.organisation = $1 AND g.target = f.target AND g.any_of = f.any_of OFFSET 0) g
        WHERE f.organisation = $1 AND f.source = a.lot AND f.any_of IS NOT NULL OFFSET 0)) o
     WHERE o.lot <> ALL ($2::uuid[])`,
    [organisation, lots],
  );
  return rows.map((r) => r.lot);
}
