import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { batchStillHere, receivedStillHere, runStillHere, type BookRef } from '../../platform/ledger/index.js';
import { houseDays } from '../standing/index.js';

/** Goods come back within two months, packed bread and dry goods from a customer's shelf among them; by then everything baked is long past its date. */
const returnDays = 60;
/** The newest of each: a device's answer stays small where nobody counts. */
const most = { runs: 100, batches: 200, departures: 300 };
/** As many of what came in, of each type: what is used up or emptied is not among them. */
const mostReceived = 400;

/** Lots of a type that may still be at the site, the newest first. */
const noted = (type: string, more: string): string =>
  `(SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = '${type}' ${more} ORDER BY at DESC OFFSET 0) w`;
const thisSeason = `AND at < $3 AND at > $3::timestamptz - interval '${houseDays} days'`;

/** What came in and may still be at the site ($2), however long ago. */
export const cameAndStillHere = `SELECT w.lot FROM unnest(ARRAY['received', 'placeholder', 'vessel']) t(type) CROSS JOIN LATERAL (
      SELECT w.lot FROM (SELECT id AS lot, at FROM still_here WHERE organisation = $1 AND book = $2 AND type = t.type ORDER BY at DESC OFFSET 0) w
      CROSS JOIN LATERAL (${receivedStillHere}) l ORDER BY w.at DESC LIMIT ${mostReceived}) w`;

interface LotRow {
  readonly lot: Row<'lot'>['id'];
}

/**
 * Lots from before a night that it may still be about, whichever day they were made: runs with pieces that were not loaded, with their makes; batches not
 * all gone by the records; what went to somebody who may bring it back; what another site sent to a shop of the house. Rather
 * more than fewer: the views judge each by its rows.
 */
export async function inTheHouse(client: ClientBase, site: BookRef, from: string): Promise<readonly string[]> {
  const { rows } = await client.query<LotRow>({
    name: 'night in the house',
    text: `WITH own_shop AS (SELECT DISTINCT party FROM party WHERE organisation = $1 AND type = 'own-shop'),
     open_run AS (SELECT w.lot, r.make FROM ${noted('run', thisSeason)} CROSS JOIN LATERAL (${runStillHere}) r ORDER BY w.at DESC LIMIT ${most.runs}),
     open_batch AS (SELECT w.lot FROM ${noted('batch', thisSeason)} CROSS JOIN LATERAL (${batchStillHere}) b ORDER BY w.at DESC LIMIT ${most.batches}),
     went AS (
       SELECT d.lot FROM departure d WHERE d.organisation = $1 AND d.book = $2 AND d.at < $3 AND d.at > $3::timestamptz - interval '${returnDays} days'
         AND d.channel IN ('round', 'dispatch', 'stall', 'own-shop', 'donation') ORDER BY d.at DESC LIMIT ${most.departures}),
     sent_here AS (
       SELECT s.lot FROM book k CROSS JOIN LATERAL (
         SELECT d.lot FROM departure d WHERE d.organisation = $1 AND d.book = k.id AND d.at > $3::timestamptz - interval '${returnDays} days'
           AND (d.channel = 'own-shop' OR d.customer IN (SELECT party FROM own_shop)) ORDER BY d.at DESC LIMIT ${most.departures}) s
       WHERE k.organisation = $1 AND k.type = 'site' AND k.id <> $2)
     SELECT lot FROM open_run UNION SELECT make FROM open_run UNION SELECT lot FROM open_batch UNION SELECT lot FROM went UNION SELECT lot FROM sent_here`,
    values: [site.organisation, site.id, from],
  });
  return rows.map((r) => r.lot);
}
