import { excessPpm, staysAway } from '@bakehouse/records';
import { houseDays } from './house-days.js';

const seasonAgo = `$3::timestamptz - interval '${houseDays} days'`;

/**
 * The makes whose sums may still matter, as a table of a WITH. No record says that a sum cannot be and none is kept, so all of history would have to be added up:
 * instead, the makes of a season, those that were divided or counted out in it, however old, and those that went into one of these.
 */
export const recentMakes = `
  recent_make(make) AS MATERIALIZED (
    WITH begun AS (
      SELECT m.id AS make FROM make m WHERE m.organisation = $1 AND m.bake_day >= (${seasonAgo})::date
      UNION SELECT n.make FROM book k CROSS JOIN LATERAL (
        SELECT r.make FROM run r WHERE r.organisation = $1 AND r.book = k.id AND r.at >= ${seasonAgo}
        UNION ALL SELECT b.make FROM batch b WHERE b.organisation = $1 AND b.book = k.id AND b.at >= ${seasonAgo}
        OFFSET 0) n WHERE k.organisation = $1
    )
    SELECT make FROM begun
    UNION SELECT n.make FROM begun m CROSS JOIN LATERAL (
      SELECT s.id AS make FROM flow f JOIN make s ON s.organisation = $1 AND s.id = f.source WHERE f.organisation = $1 AND f.target = m.make
      OFFSET 0) n
  )`;

const amount = 'coalesce(pieces, mg)';
const wasSent = `decided IS NULL AND channel NOT IN (${staysAway.map((channel) => `'${channel}'`).join(', ')})`;

/**
 * Of these, the makes and runs whose sums cannot be, as the rules of standing add them up, which judge each once more: something came of a make that nothing
 * was weighed into; more than went in; more was counted out of a run than it was divided into. And the lots of which more came back in a season than was
 * sent, in all or to somebody.
 */
export const impossibleSums = `
  SELECT m.make AS lot FROM recent_make m CROSS JOIN LATERAL (
    SELECT count(*) AS lines, CASE WHEN count(f.mg) = count(*) THEN sum(f.mg) END AS mg FROM (
      SELECT DISTINCT ON (coalesce(any_of, id)) mg FROM flow WHERE organisation = $1 AND target = m.make) f
  ) went CROSS JOIN LATERAL (
    SELECT count(*) AS times, sum(d.runs_mg + d.old_dough_mg + d.scrap_mg) AS mg, CASE WHEN count(d.weighed_mg) = count(*) THEN sum(d.weighed_mg) END AS weighed
      FROM divided d WHERE d.organisation = $1 AND d.make = m.make
  ) came WHERE came.mg > greatest(went.mg, came.weighed) * ${1_000_000 + excessPpm} / 1000000
    OR (went.lines = 0 AND (came.times > 0
      OR EXISTS (SELECT FROM make_ended e WHERE e.organisation = $1 AND e.make = m.make)
      OR EXISTS (SELECT FROM flow f WHERE f.organisation = $1 AND f.source = m.make)))
  UNION SELECT r.id FROM recent_make m CROSS JOIN LATERAL (
    SELECT id, pieces FROM run WHERE organisation = $1 AND make = m.make OFFSET 0) r CROSS JOIN LATERAL (
    SELECT sum(b.pieces + b.rejects) AS pieces FROM batch b WHERE b.organisation = $1 AND b.run = r.id) counted
    WHERE counted.pieces > r.pieces
  UNION SELECT c.lot FROM (SELECT DISTINCT t.lot FROM book k CROSS JOIN LATERAL (
      SELECT t.lot FROM returned t WHERE t.organisation = $1 AND t.book = k.id AND t.at >= ${seasonAgo} OFFSET 0) t WHERE k.organisation = $1) c
    CROSS JOIN LATERAL (SELECT coalesce(sum(${amount}), 0) AS amount FROM departure WHERE organisation = $1 AND lot = c.lot AND ${wasSent}) sent
    CROSS JOIN LATERAL (SELECT sum(${amount}) AS amount FROM returned WHERE organisation = $1 AND lot = c.lot) came
    WHERE came.amount > sent.amount OR EXISTS (
      SELECT FROM (SELECT coalesce(r.customer, d.customer) AS customer, sum(coalesce(r.pieces, r.mg)) AS amount
        FROM returned r LEFT JOIN departure d ON d.organisation = $1 AND d.id = r.departure
        WHERE r.organisation = $1 AND r.lot = c.lot GROUP BY 1) x
      WHERE x.amount > (SELECT coalesce(sum(${amount}), 0) FROM departure WHERE organisation = $1 AND lot = c.lot AND customer = x.customer AND ${wasSent}))`;
