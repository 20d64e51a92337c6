import type { TraceLot } from '@bakehouse/graph';
import { grouped, latest } from '@bakehouse/kernel';
import { backAgain, byPlace, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { idsOf, rowsBy, type Computed, type TableRow } from '../../platform/database/index.js';
import { either } from './either.js';

export type Went = Pick<TraceLot, 'awayMg' | 'leftMg' | 'leftAt'>;
interface WentRow {
  readonly lot: Row<'lot'>['id'];
  readonly awayMg: Computed<number>;
  readonly leftMg: Computed<Row<'counted'>['mg']>;
  readonly leftAt: Computed<Row<'counted'>['at'] | null>;
}
interface CountRow extends Pick<Row<'counted'>, 'id' | 'lot' | 'at' | 'site' | 'place'> {
  readonly mg: Computed<Row<'counted'>['mg']>;
  readonly pieces: Computed<null>;
}
type CarriedRow = Pick<Row<'moved'>, 'lot' | 'toPlace' | 'mg' | 'pieces'>;
interface SentRow extends Pick<TableRow<'departure'>, 'id' | 'lot' | 'at' | 'channel' | 'customer'> {
  readonly site: Computed<TableRow<'departure'>['book']>;
  readonly toShop: Computed<true>;
}

export const nothingWent: Went = { awayMg: 0, leftMg: null, leftAt: null };

/** Milligrams of a row: pieces by what one of them was scaled at. */
const mass = (row: string): string => `coalesce(${row}.mg, ${row}.pieces * s.scaling_mg)`;
/** What one piece of a lot was scaled at. */
const scaledAs = (lot: string): string => `
     LEFT JOIN LATERAL (SELECT b.run FROM batch b WHERE b.organisation = $1 AND b.id = ${lot} OFFSET 0) b ON true
     LEFT JOIN LATERAL (SELECT r.scaling_mg FROM run r WHERE r.organisation = $1 AND r.id = ${either('b.run', lot)} OFFSET 0) s ON true`;
/** Whether what went only went to a shop of the house: `staysInTheHouse` in records. */
const toShop = (row: string): string => `(${row}.channel = 'own-shop' OR coalesce(
       (SELECT p.type FROM party p WHERE p.organisation = $1 AND p.party = ${row}.customer ORDER BY p.since DESC, p.seq DESC LIMIT 1), '') = 'own-shop')`;

/** What was there of each of these lots when all of it was last counted. Of a lot that went to a shop of the house no count says that. */
async function countsOf(
  client: ClientBase,
  organisation: string,
  lots: readonly string[],
): Promise<Pick<WentRow, 'lot' | 'leftMg' | 'leftAt'>[]> {
  const ask = async <T extends Pick<WentRow, 'lot'>>(name: string, text: string): Promise<ReadonlyMap<string, readonly T[]>> =>
    grouped((await client.query<T>({ name: `went: ${name}`, text, values: [organisation, idsOf(lots)] })).rows, (row) => row.lot);
  const [counts, carried, sent] = await Promise.all([
    ask<CountRow>(
      'counts',
      `SELECT n.id, n.lot, n.at, n.site, n.place, ${mass('n')} AS mg, NULL AS pieces
       FROM (${rowsBy('counted', 'lot')}) n ${scaledAs('n.lot')}`,
    ),
    ask<CarriedRow>('carried', `SELECT lot, to_place AS "toPlace", mg, pieces FROM (${rowsBy('moved', 'lot')}) m`),
    ask<SentRow>(
      'to a shop',
      `SELECT g.id, g.lot, g.at, g.channel, g.customer, g.book AS site, true AS "toShop"
       FROM (${rowsBy('departure', 'lot')}) g WHERE g.certain AND ${toShop('g')}`,
    ),
  ]);
  return lots.map((lot) => {
    const [departures = [], of = [], moved = []] = [sent.get(lot), counts.get(lot), carried.get(lot)];
    const { bakehouse, shop } = byPlace({ departures, returned: [], counts: of, carried: moved });
    const count = shop ? undefined : latest(bakehouse.counts.filter((c) => c.mg !== null));
    return { lot, leftMg: count?.mg ?? null, leftAt: count?.at ?? null };
  });
}

/**
 * What of these lots surely was not used in the house: what left it or was thrown away, less what came back, and what was there when all of it was last
 * counted. What went to its own shop has not left it. A count after which something came in or back bounds nothing later, and is left out; so is everything where nobody knows how much came back.
 */
export async function wentOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<ReadonlyMap<string, Went>> {
  if (lots.length === 0) return new Map();
  const counts = await countsOf(client, organisation, lots);
  const { rows } = await client.query<WentRow>(
    `SELECT a.lot, CASE WHEN back.unknown THEN 0 ELSE coalesce(d.mg, 0) - coalesce(back.mg, 0) END::bigint AS "awayMg", c.mg AS "leftMg", c.at AS "leftAt"
     FROM unnest($2::uuid[], $4::bigint[], $5::timestamptz[]) a(lot, mg, at) ${scaledAs('a.lot')}
     LEFT JOIN LATERAL (SELECT a.mg, a.at WHERE a.at IS NOT NULL
         AND NOT EXISTS (SELECT FROM flow f WHERE f.organisation = $1 AND f.target = a.lot AND f.at > a.at)
         AND NOT EXISTS (SELECT FROM returned t WHERE t.organisation = $1 AND t.lot = a.lot AND t.disposition = ANY($3) AND t.at > a.at)) c ON true
     LEFT JOIN LATERAL (SELECT sum(${mass('g')}) AS mg FROM departure g
       WHERE g.organisation = $1 AND g.lot = a.lot AND g.certain AND (c.at IS NULL OR g.at <= c.at) AND NOT ${toShop('g')}
       OFFSET 0) d ON true
     LEFT JOIN LATERAL (SELECT sum(${mass('t')}) AS mg, count(*) > count(${mass('t')}) AS unknown FROM returned t
       WHERE t.organisation = $1 AND t.lot = a.lot AND t.disposition = ANY($3) AND (c.at IS NULL OR t.at <= c.at) OFFSET 0) back ON true`,
    [organisation, idsOf(lots), backAgain, counts.map((c) => c.leftMg), counts.map((c) => c.leftAt)],
  );
  return new Map(rows.map(({ lot, ...went }) => [lot, went]));
}

/** The lots that stand beside one of these where something was used or went as one of several, and are not among these. */
export async function besideOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<string[]> {
  const { rows } = await client.query<Pick<WentRow, 'lot'>>({
    name: 'lots beside',
    text: `SELECT DISTINCT o.lot FROM (
       SELECT g.lot FROM (SELECT trip, any_of FROM (${rowsBy('departure', 'lot')}) d WHERE any_of IS NOT NULL OFFSET 0) d CROSS JOIN LATERAL (
         SELECT g.lot FROM departure g WHERE g.organisation = $1 AND g.trip = d.trip AND g.any_of = d.any_of OFFSET 0) g
       UNION ALL
       SELECT g.source FROM (SELECT target, any_of FROM (${rowsBy('flow', 'source')}) f WHERE any_of IS NOT NULL OFFSET 0) f CROSS JOIN LATERAL (
         SELECT g.source FROM flow g WHERE g.organisation = $1 AND g.target = f.target AND g.any_of = f.any_of OFFSET 0) g) o
     WHERE o.lot NOT IN (SELECT unnest($2::uuid[]))`,
    values: [organisation, idsOf(lots)],
  });
  return rows.map((r) => r.lot);
}
