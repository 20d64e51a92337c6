import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import {
  batchStillHere,
  madeStillHere,
  receivedStillHere,
  runStillHere,
  sizesSql,
  type BookRef,
  type BookSize,
} from '../../platform/ledger/index.js';
import { houseDays } from '../standing/index.js';

/** Goods come back within two months, packed bread and dry goods from a customer's shelf among them; by then everything baked is long past its date. */
const returnDays = 60;
/** The newest of each: a device's answer stays small where nobody counts. How many of what was made or sent are left out is said. */
const most = { runs: 100, batches: 200, departures: 300, received: 400, made: 200 };

/** Lots of a type that may still be at the site, of the season before the night. */
const noted = (type: string): string => `(SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = '${type}'
         AND at < $3 AND at > $3::timestamptz - interval '${houseDays} days' OFFSET 0) w`;
const returning = `$3::timestamptz - interval '${returnDays} days'`;
const newest = (of: string, limit: number): string => `(SELECT lot FROM ${of} ORDER BY at DESC LIMIT ${limit})`;

/** What came in and may still be at the site ($2), however long ago. */
export const cameAndStillHere = `SELECT w.lot FROM unnest(ARRAY['received', 'placeholder', 'vessel']) t(type) CROSS JOIN LATERAL (
      SELECT w.lot FROM (SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = t.type ORDER BY at DESC OFFSET 0) w
      CROSS JOIN LATERAL (${receivedStillHere}) l ORDER BY w.at DESC LIMIT ${most.received}) w`;

export interface InTheHouse {
  readonly lots: Computed<readonly string[]>;
  /** How many more there are, made or sent longer ago. */
  readonly leftOut: Computed<number>;
  /** How many entries each book holds at this moment. */
  readonly sizes: Computed<readonly Pick<BookSize, 'book' | 'name' | 'type' | 'size'>[]>;
}

/**
 * Lots from before a night that it may still be about, whichever day they were made: runs with pieces that were not loaded, with their makes; batches not
 * all gone by the records; what was made for later, however long ago; what went to somebody who may bring it back; what another site sent to a shop of the house. Rather
 * more than fewer: the views judge each by its rows.
 */
export async function inTheHouse(client: ClientBase, site: BookRef, from: string): Promise<InTheHouse> {
  const { rows } = await client.query<InTheHouse>({
    name: 'night in the house',
    text: `WITH own_shop AS (SELECT DISTINCT party FROM party WHERE organisation = $1 AND type = 'own-shop'),
     open_run AS MATERIALIZED (SELECT w.lot, r.make, w.at FROM ${noted('run')} CROSS JOIN LATERAL (${runStillHere}) r),
     open_batch AS MATERIALIZED (SELECT w.lot, w.at FROM ${noted('batch')} CROSS JOIN LATERAL (${batchStillHere}) b),
     went AS MATERIALIZED (
       SELECT d.lot, max(d.at) AS at FROM departure d WHERE d.organisation = $1 AND d.book = $2 AND d.at < $3 AND d.at > ${returning}
         AND d.channel IN ('round', 'dispatch', 'stall', 'own-shop', 'donation') GROUP BY d.lot),
     sent_here AS MATERIALIZED (
       SELECT s.lot, max(s.at) AS at FROM book k CROSS JOIN LATERAL (
         SELECT d.lot, d.at FROM departure d WHERE d.organisation = $1 AND d.book = k.id AND d.at > ${returning}
           AND (d.channel = 'own-shop' OR d.customer IN (SELECT party FROM own_shop)) OFFSET 0) s
       WHERE k.organisation = $1 AND k.type = 'site' AND k.id <> $2 GROUP BY s.lot),
     stored AS MATERIALIZED (SELECT w.lot, w.at FROM (
       SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type IN ('made', 'old-dough') AND at < $3 OFFSET 0) w CROSS JOIN LATERAL (${madeStillHere}) m),
     newest AS (
       ${newest('open_run', most.runs)} UNION SELECT make FROM (SELECT make FROM open_run ORDER BY at DESC LIMIT ${most.runs}) m
       UNION ${newest('open_batch', most.batches)} UNION ${newest('stored', most.made)} UNION ${newest('went', most.departures)} UNION ${newest('sent_here', most.departures)}),
     everything AS (SELECT lot FROM open_run UNION SELECT lot FROM open_batch UNION SELECT lot FROM stored UNION SELECT lot FROM went UNION SELECT lot FROM sent_here)
     SELECT ARRAY(SELECT lot FROM newest) AS lots, (SELECT count(*)::int FROM everything WHERE lot NOT IN (SELECT lot FROM newest)) AS "leftOut",
       (SELECT json_agg(b) FROM (${sizesSql}) b) AS sizes`,
    values: [site.organisation, site.id, from],
  });
  return rows[0] ?? { lots: [], leftOut: 0, sizes: [] };
}
