import { doneWith, excessPpm, staysAway, usingDispositions } from '@bakehouse/records';
import { firstLoads, lastVerdict } from './first-load-sql.js';
import { atHeldPlace } from './held-place-sql.js';
import { derivedIdSql, laterContentSql } from './later-content.js';
import { batchNotRead, makeNotRead } from './not-read-sql.js';
import { usedPastLife } from './past-life-sql.js';
import { reworkAgainst } from './rework-sql.js';
import { snake, table, wordsSql } from './table.js';

const anyOf = (...arms: readonly string[]): string => arms.join('\n    UNION ALL ');

const heldByHand = `SELECT 1 FROM hold h WHERE h.organisation = $1 AND h.lot = w.lot
      AND NOT EXISTS (SELECT FROM hold_lifted f WHERE f.organisation = $1 AND f.hold = h.id)`;
const recalled = `SELECT 1 FROM recall_scope_lot s JOIN recall_case c ON c.organisation = $1 AND c.id = s.recall
      WHERE s.organisation = $1 AND s.lot = w.lot AND s.begins AND NOT c.practice`;
const refused = "SELECT 1 FROM receipt_decision r WHERE r.organisation = $1 AND r.lot = w.lot AND r.decision = 'refused'";

const done = doneWith('w.lot').map(
  (need) => `SELECT 1 FROM ${table(need.in).name} f WHERE f.organisation = $1 AND f.${snake(need.by)} = ${need.value}`,
);
const withdrawn = `SELECT 1 FROM (SELECT type FROM lot WHERE organisation = $1 AND id = w.lot OFFSET 0) l CROSS JOIN LATERAL (
        ${anyOf(...done)} LIMIT 1) f WHERE l.type = 'withdrawn'`;

/** More is gone than there was of a lot that was destroyed. Amounts that a count or an end may explain are left to the rules. */
const overdrawn = `SELECT 1 FROM (SELECT 1 FROM departure WHERE organisation = $1 AND lot = w.lot AND decided IS NOT NULL LIMIT 1) d
      JOIN lot l ON l.organisation = $1 AND l.id = w.lot CROSS JOIN LATERAL (
        SELECT sum(g.pieces) AS pieces, sum(g.mg) AS mg, max(g.at) AS last, max(g.at) FILTER (WHERE g.decided = 'rest') AS rest FROM (
          SELECT pieces, mg, at, decided FROM departure WHERE organisation = $1 AND lot = w.lot
          UNION ALL SELECT pieces, mg, at, NULL FROM flow WHERE organisation = $1 AND source = w.lot) g
        OFFSET 0) gone
      WHERE gone.last > gone.rest OR gone.pieces > l.pieces
        OR gone.mg > coalesce(l.mg, (SELECT sum(f.mg) FROM (SELECT DISTINCT ON (coalesce(any_of, id)) mg FROM flow WHERE organisation = $1 AND target = w.lot) f), 0)
        OR EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.same = w.lot)
        OR EXISTS (SELECT FROM counted c WHERE c.organisation = $1 AND c.lot = w.lot)
        OR EXISTS (SELECT FROM make_ended m WHERE m.organisation = $1 AND m.make = w.lot)`;

const ofMake = `SELECT 1 FROM (SELECT id FROM make WHERE organisation = $1 AND id = w.lot OFFSET 0) m CROSS JOIN LATERAL (
        SELECT count(*) AS lines, CASE WHEN count(f.mg) = count(*) THEN sum(f.mg) END AS mg FROM (
          SELECT DISTINCT ON (coalesce(any_of, id)) mg FROM flow WHERE organisation = $1 AND target = m.id) f
      ) went CROSS JOIN LATERAL (
        SELECT count(*) AS times, sum(d.runs_mg + d.old_dough_mg + d.scrap_mg) AS mg, CASE WHEN count(d.weighed_mg) = count(*) THEN sum(d.weighed_mg) END AS weighed
          FROM divided d WHERE d.organisation = $1 AND d.make = m.id
      ) came WHERE came.mg > greatest(went.mg, came.weighed) * ${1_000_000 + excessPpm} / 1000000
        OR (went.lines = 0 AND (came.times > 0
          OR EXISTS (SELECT FROM make_ended e WHERE e.organisation = $1 AND e.make = m.id)
          OR EXISTS (SELECT FROM flow f WHERE f.organisation = $1 AND f.source = m.id)))`;
const ofRun = `SELECT 1 FROM (SELECT id, pieces FROM run WHERE organisation = $1 AND id = w.lot OFFSET 0) r CROSS JOIN LATERAL (
        SELECT sum(b.pieces + b.rejects) AS pieces FROM batch b WHERE b.organisation = $1 AND b.run = r.id) counted
      WHERE counted.pieces > r.pieces`;
/** Batches that name the loads which this one and another name hold more than these did; or another has the same code. */
const ofBatch = `SELECT 1 FROM (SELECT id, run, code, site, product, baked_on, loads FROM batch WHERE organisation = $1 AND id = w.lot OFFSET 0) b
      WHERE EXISTS (SELECT FROM (SELECT id, site, product, baked_on FROM batch WHERE organisation = $1 AND code = b.code OFFSET 0) s
          WHERE s.id <> b.id AND s.site = b.site AND s.product = b.product AND s.baked_on = b.baked_on)
        OR EXISTS (SELECT FROM (SELECT c.loads || d.loads AS loads FROM (SELECT loads FROM batch WHERE organisation = $1 AND run = b.run OFFSET 0) c
            CROSS JOIN (SELECT loads FROM batch WHERE organisation = $1 AND run = b.run OFFSET 0) d) u
          WHERE u.loads @> b.loads AND b.loads <> '[]'
            AND (SELECT sum(e.pieces + e.rejects) FROM batch e WHERE e.organisation = $1 AND e.run = b.run AND e.loads <> '[]' AND e.loads <@ u.loads)
              > (SELECT coalesce(sum(o.pieces), 0) FROM load_line o WHERE o.organisation = $1 AND o.run = b.run AND u.loads ? o.load::text))`;

/** The content of a vessel went into it after that was cleaned out. */
const afterCleanOut = `SELECT 1 FROM (SELECT source, at FROM flow WHERE organisation = $1 AND target = w.lot OFFSET 0) f CROSS JOIN LATERAL (
        SELECT FROM emptied e WHERE e.organisation = $1 AND e.lot = f.source AND e.left_mg = 0 AND e.at < f.at LIMIT 1) e
      CROSS JOIN LATERAL (SELECT type FROM lot WHERE organisation = $1 AND id = f.source OFFSET 0) l WHERE l.type = 'vessel'`;

/**
 * Something went into it past its use-by date: itself, what it turned out to be, or what was put into a vessel in time and was in it still. A clear lot holds
 * none.
 */
const pastUseBy = `SELECT 1 FROM (SELECT source, target, at, day FROM flow WHERE organisation = $1 AND target = w.lot OFFSET 0) f CROSS JOIN LATERAL (
        SELECT f.source AS lot UNION ALL SELECT c.lot FROM (${laterContentSql('f')}) c) s CROSS JOIN LATERAL (
          WITH RECURSIVE holds(lot, day) AS (SELECT s.lot, '-infinity'::date UNION SELECT n.lot, greatest(h.day, n.day) FROM holds h CROSS JOIN LATERAL (
            SELECT i.same AS lot, '-infinity'::date AS day FROM lot_identified i WHERE i.organisation = $1 AND i.lot = h.lot AND i.same IS NOT NULL
            UNION ALL SELECT g.source, g.day FROM (SELECT id, type FROM lot WHERE organisation = $1 AND id = h.lot OFFSET 0) v CROSS JOIN LATERAL (
              SELECT source, day FROM flow WHERE organisation = $1 AND target = v.id OFFSET 0) g
              WHERE v.type = 'vessel' AND NOT EXISTS (SELECT FROM clear_lot k WHERE k.organisation = $1 AND k.lot = v.id)
            OFFSET 0) n)
          SELECT FROM holds h CROSS JOIN LATERAL (SELECT use_by FROM lot WHERE organisation = $1 AND id = h.lot OFFSET 0) l
            WHERE l.use_by >= h.day AND l.use_by < f.day LIMIT 1) past`;

const wasSent = `decided IS NULL AND channel <> ALL (${wordsSql(staysAway)})`;
const both = 'coalesce(sum(pieces), 0) AS pieces, coalesce(sum(mg), 0) AS mg';
const more = 'came.pieces > sent.pieces OR came.mg > sent.mg';
/** In all, or to somebody who is named: what a round or a counter sold went to people who are not. */
const broughtBack = `SELECT 1 FROM (SELECT 1 FROM returned WHERE organisation = $1 AND lot = w.lot LIMIT 1) t
      CROSS JOIN LATERAL (SELECT ${both} FROM departure WHERE organisation = $1 AND lot = w.lot AND ${wasSent}) sent
      CROSS JOIN LATERAL (SELECT ${both} FROM returned WHERE organisation = $1 AND lot = w.lot) came
      WHERE ${more} OR EXISTS (
        SELECT FROM (SELECT coalesce(r.customer, d.customer) AS customer, coalesce(sum(r.pieces), 0) AS pieces, coalesce(sum(r.mg), 0) AS mg
          FROM returned r LEFT JOIN LATERAL (SELECT customer FROM departure WHERE organisation = $1 AND id = r.departure OFFSET 0) d ON true
          WHERE r.organisation = $1 AND r.lot = w.lot GROUP BY 1) came CROSS JOIN LATERAL (
          SELECT ${both} FROM departure WHERE organisation = $1 AND lot = w.lot AND customer = came.customer AND ${wasSent}) sent
        WHERE came.customer IS NOT NULL AND (${more}))`;

/** The first load of its day, which is read for the batch too, was outside or is not read; or only doubtful, which is asked of its readings. */
const atFirstLoad = `SELECT 1 FROM (SELECT run FROM batch WHERE organisation = $1 AND id = w.lot OFFSET 0) b CROSS JOIN LATERAL (${firstLoads('b.run')}) f
      WHERE f.own <> f.id AND ${lastVerdict('f.own', 'f.key')} IS DISTINCT FROM 'within' AND CASE ${lastVerdict('f.id', 'f.key')}
        WHEN 'outside' THEN true WHEN 'within' THEN false WHEN 'unsure' THEN false ELSE f.holds AND NOT EXISTS (
          SELECT FROM reading_not_taken n WHERE n.organisation = $1 AND n.subject = f.id AND n.point_key = f.key AND n.answer = 'not-needed') END`;

/** What a lot is recorded under: itself, its delivery, the loads of its run and the first of their day. */
const subjects = `SELECT w.lot AS id
      UNION ALL SELECT l.delivery FROM lot l WHERE l.organisation = $1 AND l.id = w.lot AND l.delivery IS NOT NULL
      UNION ALL SELECT o.load FROM (SELECT run FROM batch WHERE organisation = $1 AND id = w.lot OFFSET 0) b CROSS JOIN LATERAL (
        SELECT load FROM load_line WHERE organisation = $1 AND run = b.run OFFSET 0) o
      UNION ALL SELECT f.id FROM (SELECT run FROM batch WHERE organisation = $1 AND id = w.lot OFFSET 0) b CROSS JOIN LATERAL (${firstLoads('b.run')}) f`;

/**
 * A deviation that holds, unless its last believable reading is within, after something was done about it where a value was outside, or it was decided for
 * all that came of it, and nothing was corrected since.
 */
const deviates = `SELECT 1 FROM deviation d WHERE d.organisation = $1 AND d.subject = s.id AND d.holds
        AND NOT EXISTS (
          SELECT FROM (SELECT r.verdict, r.at FROM reading r WHERE r.organisation = $1 AND r.subject = d.subject AND r.point = d.point
            AND r.verdict <> 'not-believable' ORDER BY r.at DESC, r.id DESC LIMIT 1) last
          WHERE last.verdict = 'within' AND (d.type = 'not-taken' OR (d.type IN ('limit', 'found-after-release') AND last.at > d.at
            AND EXISTS (SELECT FROM corrective_action a WHERE a.organisation = $1 AND a.deviation = d.id AND a.type <> 'told-somebody'
              AND a.at BETWEEN d.at AND last.at))))
        AND NOT EXISTS (SELECT FROM disposition p WHERE p.organisation = $1 AND p.deviation = d.id AND p.subject = d.subject
          AND p.covers = 'what-came-of-it' AND p.disposition = ANY (${wordsSql(usingDispositions)}) AND p.mg IS NULL AND p.pieces IS NULL
          AND (NOT p.saw @> jsonb_build_array(jsonb_build_object('concern', d.id::text)) OR EXISTS (
            SELECT FROM (SELECT id, corrected FROM reading WHERE organisation = $1 AND subject = d.subject OFFSET 0) r WHERE NOT r.corrected AND ${derivedIdSql('r.id', 'deviation')} = d.id)))`;
/** A critical reading that was too close to call or not plausible, with no clear one after it. */
const unsure = `SELECT 1 FROM reading r WHERE r.organisation = $1 AND r.subject = s.id AND r.class = 'ccp'
        AND r.verdict IN ('unsure', 'not-believable') AND NOT EXISTS (SELECT FROM reading x WHERE x.organisation = $1 AND x.subject = s.id
          AND x.point_key = r.point_key AND x.verdict IN ('within', 'outside') AND x.at > r.at)`;
const nearest = (of: string, way: string): string =>
  `(SELECT ${of}(k.at) FROM instrument_check k WHERE k.organisation = $1 AND k.instrument = r.instrument AND k.at ${way} r.at)`;
/** One that was within by an instrument of which the last check before, or the first since, failed; or which was out of use, or went so unchecked. */
const doubtful = `SELECT 1 FROM reading r WHERE r.organisation = $1 AND r.subject = s.id AND r.class IN ('ccp', 'oprp') AND r.verdict = 'within'
        AND (EXISTS (SELECT FROM instrument_check c WHERE c.organisation = $1 AND c.instrument = r.instrument AND NOT c.passed
            AND c.at = ANY (ARRAY[${nearest('max', '<=')}, ${nearest('min', '>=')}]))
          OR EXISTS (SELECT FROM instrument_out u WHERE u.organisation = $1 AND u.instrument = r.instrument
            AND (r.at >= u.at OR ${nearest('min', '>=')} IS NULL)))`;

/**
 * Of `watched`, a table of a WITH, the lots at which a concern may begin: more rather than fewer, since the rules that the door uses judge each. Every step
 * is looked up by the lot. $1 is the organisation.
 */
export const concernBegins = `SELECT w.lot FROM watched w CROSS JOIN LATERAL (
    ${anyOf(heldByHand, atHeldPlace, recalled, refused, withdrawn, overdrawn, ofMake, ofRun, ofBatch, atFirstLoad, broughtBack, afterCleanOut, pastUseBy, usedPastLife, reworkAgainst, makeNotRead, batchNotRead)}
    UNION ALL SELECT 1 FROM (${subjects} OFFSET 0) s CROSS JOIN LATERAL (
      ${anyOf(deviates, unsure, doubtful)}
      LIMIT 1) o
    LIMIT 1) begins`;

/** What is on watch, as the table of a WITH that `concernBegins` asks. What of it is no lot has nothing begin at it. */
export const watched = 'watched(lot) AS MATERIALIZED (SELECT id FROM on_watch WHERE organisation = $1)';
/** The same, of no more than so much. */
export const watchedUpTo = (most: string): string =>
  `watched(lot) AS MATERIALIZED (SELECT id FROM on_watch WHERE organisation = $1 LIMIT ${most})`;

/** Of `watched`, the deviations that nobody closed and the holds that nobody lifted, each looked up by its id. */
export const openDeviations = `SELECT d.id, d.book FROM watched w CROSS JOIN LATERAL (
    SELECT d.id, d.book FROM deviation d WHERE d.organisation = $1 AND d.id = w.lot
      AND NOT EXISTS (SELECT FROM deviation_closed c WHERE c.organisation = $1 AND c.deviation = d.id) LIMIT 1) d`;
export const openHolds = `SELECT h.id FROM watched w CROSS JOIN LATERAL (
    SELECT h.id FROM hold h WHERE h.organisation = $1 AND h.id = w.lot
      AND NOT EXISTS (SELECT FROM hold_lifted f WHERE f.organisation = $1 AND f.hold = h.id) LIMIT 1) h`;
