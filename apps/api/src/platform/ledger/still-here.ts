import { backAgain } from '@bakehouse/records';
import { wordsSql } from './table.js';

const back = wordsSql(backAgain);
/** Whether departure `d` only went to a shop of the house. */
export const toOwnShop = (d: string): string =>
  `(${d}.channel = 'own-shop' OR EXISTS (SELECT FROM party p WHERE p.organisation = $1 AND p.party = ${d}.customer AND p.type = 'own-shop'))`;

/** Rows about one lot, looked up by it, whatever the planner takes the table to hold. */
const of = (table: string, lot: string, by = 'lot'): string =>
  `(SELECT * FROM ${table} WHERE organisation = $1 AND ${by} = ${lot} OFFSET 0)`;

/** A run with pieces that were neither loaded nor counted out, unless it was counted and nothing was found. */
export const runStillHere = `SELECT r.make FROM (SELECT id, make, pieces FROM run WHERE organisation = $1 AND id = w.lot OFFSET 0) r
    WHERE r.pieces > coalesce((SELECT sum(l.pieces) FROM load_line l WHERE l.organisation = $1 AND l.run = r.id), 0)
      AND r.pieces > coalesce((SELECT sum(b.pieces + b.rejects) FROM batch b WHERE b.organisation = $1 AND b.run = r.id), 0)
      AND NOT EXISTS (SELECT FROM ${of('counted', 'r.id')} c WHERE c.pieces = 0)`;

/** A batch that is not all gone by the records; what came back, or went to a shop of the house, is in the house. */
export const batchStillHere = `SELECT 1 FROM (SELECT id, pieces FROM batch WHERE organisation = $1 AND id = w.lot OFFSET 0) b
    WHERE b.pieces + coalesce((SELECT sum(t.pieces) FROM ${of('returned', 'b.id')} t WHERE t.disposition = ANY (${back})), 0)
        > coalesce((SELECT sum(d.pieces) FROM ${of('departure', 'b.id')} d WHERE d.certain AND NOT ${toOwnShop('d')}), 0)
      AND coalesce((SELECT c.pieces > 0 OR EXISTS (SELECT FROM ${of('returned', 'b.id')} t WHERE t.at > c.at)
            OR EXISTS (SELECT FROM ${of('departure', 'b.id')} d WHERE ${toOwnShop('d')})
          FROM ${of('counted', 'b.id')} c WHERE (c.place IS NULL OR c.pieces > 0) ORDER BY c.at DESC, c.seq DESC LIMIT 1), true)`;

const after = (than: string): string => `EXISTS (SELECT FROM ${of('counted', 'l.id')} c WHERE c.at > ${than})
      OR EXISTS (SELECT FROM ${of('returned', 'l.id')} t WHERE t.at >= ${than} AND t.disposition = ANY (${back}))`;
const wasEmptied = `SELECT FROM ${of('emptied', 'l.id')} e WHERE l.type = 'vessel'
      AND NOT (${after('e.at')} OR EXISTS (SELECT FROM ${of('in_use', 'l.id')} u WHERE u.at > e.at))`;
const nothingFound = `SELECT FROM (SELECT c.at, c.mg, c.pieces FROM ${of('counted', 'l.id')} c WHERE c.place IS NULL
      ORDER BY c.at DESC, c.seq DESC LIMIT 1) n WHERE coalesce(n.mg, n.pieces) = 0
      AND NOT (${after('n.at')} OR EXISTS (SELECT FROM ${of('flow', 'l.id', 'target')} f WHERE f.at > n.at)
        OR EXISTS (SELECT FROM ${of('departure', 'l.id')} d WHERE ${toOwnShop('d')}))`;
const restDestroyed = `SELECT FROM ${of('departure', 'l.id')} d WHERE d.decided = 'rest' AND NOT (${after('d.at')})`;

/**
 * What came in, unless the records say that nothing of it is left: its vessel was emptied, or it was counted or destroyed, and nothing of it was seen since. What another lot
 * turned out to be has more records than its own.
 */
export const receivedStillHere = `SELECT 1 FROM (SELECT id, type FROM lot WHERE organisation = $1 AND id = w.lot
      AND type IN ('received', 'placeholder', 'vessel') OFFSET 0) l
    WHERE EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.same = l.id)
      OR NOT EXISTS (${wasEmptied}) AND NOT EXISTS (${nothingFound}) AND NOT EXISTS (${restDestroyed})`;

const unknownOrMore = (had: string, gone: string): string => `(SELECT bool_or(mg IS NULL) OR ${had} > sum(mg) FROM (${gone}) x)`;
const gone = `SELECT f.mg FROM ${of('flow', 'l.id', 'source')} f UNION ALL SELECT d.mg FROM ${of('departure', 'l.id')} d WHERE d.certain AND NOT ${toOwnShop('d')}`;

/**
 * What was made for later: a filling, a preferment, old dough. Not here any more where it was divided, counted or destroyed and nothing was seen of it since, or where all of
 * it went by the records, each amount known.
 */
export const madeStillHere = `SELECT 1 FROM (SELECT id, type, mg FROM lot WHERE organisation = $1 AND id = w.lot AND type IN ('made', 'old-dough') OFFSET 0) l
    WHERE NOT EXISTS (${nothingFound}) AND NOT EXISTS (${restDestroyed})
      AND NOT EXISTS (SELECT FROM ${of('divided', 'l.id', 'make')} v WHERE NOT (${after('v.at')} OR EXISTS (SELECT FROM ${of('in_use', 'l.id')} u WHERE u.at > v.at)))
      AND (EXISTS (SELECT FROM ${of('counted', 'l.id')} c) OR EXISTS (SELECT FROM ${of('returned', 'l.id')} t)
        OR coalesce(${unknownOrMore(`coalesce(l.mg, (SELECT CASE WHEN bool_or(f.mg IS NULL) THEN NULL ELSE sum(f.mg) END FROM ${of('flow', 'l.id', 'target')} f))`, gone)}, true))`;

/** Types of lots that are noted while they may still be in the house. */
export const notedTypes = "('run', 'batch', 'received', 'placeholder', 'vessel', 'made', 'old-dough')";
/** Whether lot `w.lot` may still be in the house, whatever it is. */
export const stillHere = `(${runStillHere}) UNION ALL (SELECT NULL FROM (${batchStillHere}) b) UNION ALL (SELECT NULL FROM (${receivedStillHere}) l)
  UNION ALL (SELECT NULL FROM (${madeStillHere}) l)`;
