import { usingDispositions, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { impossibleSums, recentMakes } from './impossible-sums.query.js';
import { wasThereSql } from './was-there.query.js';

type LotRow = { readonly lot: Row<'lot'>['id'] };

/**
 * Where a concern may begin: more rather than fewer, since the rules that the door uses judge each. What surely ended is left out here already, so that
 * the answer follows what is open and not what ever was: a deviation whose last believable reading is within, after something was done about it where a
 * value was outside; one decided for all that came of it; a reading that was too close to call with a clear one after it; and one between which and the
 * failed check of its instrument there was a good one. And a lot that was destroyed, of which no more is gone than there was.
 */
const begins = `
  SELECT h.lot FROM hold h WHERE h.organisation = $1
    AND NOT EXISTS (SELECT 1 FROM hold_lifted f WHERE f.organisation = h.organisation AND f.hold = h.id)
  UNION SELECT s.lot FROM recall_scope_lot s JOIN recall_case c ON c.organisation = s.organisation AND c.id = s.recall
    WHERE s.organisation = $1 AND s.begins AND NOT c.practice
  UNION SELECT r.lot FROM receipt_decision r WHERE r.organisation = $1 AND r.decision = 'refused'
  UNION SELECT l.id FROM lot l WHERE l.organisation = $1 AND l.type = 'withdrawn' AND ${wasThereSql('l.id')}
  UNION SELECT a.lot FROM (
    SELECT x.lot FROM recall_decision p CROSS JOIN LATERAL (SELECT lot FROM departure WHERE organisation = $1 AND trip = p.id OFFSET 0) x
      WHERE p.organisation = $1
    UNION SELECT x.lot FROM disposition p CROSS JOIN LATERAL (SELECT lot FROM departure WHERE organisation = $1 AND trip = p.id OFFSET 0) x
      WHERE p.organisation = $1 AND p.disposition <> ALL($2)
  ) a JOIN lot l ON l.organisation = $1 AND l.id = a.lot CROSS JOIN LATERAL (
    SELECT sum(g.pieces) AS pieces, sum(g.mg) AS mg, max(g.at) AS last, max(g.at) FILTER (WHERE g.decided = 'rest') AS rest FROM (
      SELECT pieces, mg, at, decided FROM departure WHERE organisation = $1 AND lot = a.lot
      UNION ALL SELECT pieces, mg, at, NULL FROM flow WHERE organisation = $1 AND source = a.lot) g
    OFFSET 0
  ) gone WHERE gone.last > gone.rest OR gone.pieces > l.pieces
    OR gone.mg > coalesce(l.mg, (SELECT sum(f.mg) FROM (SELECT DISTINCT ON (coalesce(any_of, id)) mg FROM flow WHERE organisation = $1 AND target = a.lot) f), 0)
    OR EXISTS (SELECT FROM counted c WHERE c.organisation = $1 AND c.lot = a.lot)
    OR EXISTS (SELECT FROM make_ended m WHERE m.organisation = $1 AND m.make = a.lot)
  UNION SELECT n.lot FROM (
    SELECT d.subject, d.subject_type FROM deviation d WHERE d.organisation = $1 AND d.holds
      AND NOT EXISTS (
        SELECT 1 FROM (SELECT r.verdict, r.at FROM reading r WHERE r.organisation = $1 AND r.subject = d.subject AND r.point = d.point
          AND r.verdict <> 'not-believable' ORDER BY r.at DESC, r.id DESC LIMIT 1) last
        WHERE last.verdict = 'within' AND (d.type = 'not-taken' OR (d.type IN ('limit', 'found-after-release') AND last.at > d.at
          AND EXISTS (SELECT 1 FROM corrective_action a WHERE a.organisation = $1 AND a.deviation = d.id AND a.type <> 'told-somebody'
            AND a.at BETWEEN d.at AND last.at))))
      AND NOT EXISTS (SELECT 1 FROM disposition p WHERE p.organisation = d.organisation AND p.deviation = d.id AND p.subject = d.subject
        AND p.covers = 'what-came-of-it' AND p.disposition = ANY($2) AND p.mg IS NULL AND p.pieces IS NULL)
    UNION ALL SELECT r.subject, r.subject_type FROM reading r WHERE r.organisation = $1 AND r.class = 'ccp' AND r.verdict = ANY('{unsure,not-believable}')
      AND NOT EXISTS (SELECT FROM reading x WHERE x.organisation = $1 AND x.subject = r.subject AND x.point_key = r.point_key
        AND x.verdict IN ('within', 'outside') AND x.at > r.at)
    UNION ALL SELECT r.subject, r.subject_type FROM instrument_check c JOIN reading r ON r.organisation = $1 AND r.instrument = c.instrument
      WHERE c.organisation = $1 AND NOT c.passed AND r.class = 'ccp' AND r.verdict = 'within'
        AND NOT EXISTS (SELECT FROM instrument_check g WHERE g.organisation = $1 AND g.instrument = c.instrument AND g.passed
          AND ((g.at > r.at AND g.at < c.at) OR (g.at > c.at AND g.at < r.at)))
    UNION ALL SELECT r.subject, r.subject_type FROM instrument_out u JOIN reading r ON r.organisation = $1 AND r.instrument = u.instrument
      WHERE u.organisation = $1 AND r.class = 'ccp' AND r.verdict = 'within'
        AND (r.at >= u.at OR NOT EXISTS (SELECT FROM instrument_check g WHERE g.organisation = $1 AND g.instrument = u.instrument AND g.at >= r.at))
  ) o CROSS JOIN LATERAL (
    SELECT o.subject AS lot WHERE o.subject_type NOT IN ('load', 'delivery')
    UNION ALL SELECT b.id FROM load_line l CROSS JOIN LATERAL (SELECT id FROM batch WHERE organisation = $1 AND run = l.run OFFSET 0) b
      WHERE o.subject_type = 'load' AND l.organisation = $1 AND l.load = o.subject
    UNION ALL SELECT g.id FROM lot g WHERE o.subject_type = 'delivery' AND g.organisation = $1 AND g.delivery = o.subject
    OFFSET 0
  ) n`;

/** Every lot that an open concern may reach now, at every site: one question, each step of it looked up by index. */
export async function lotsUnderConcern(client: ClientBase, organisation: string, now: string): Promise<readonly string[]> {
  const { rows } = await client.query<LotRow>(
    `WITH RECURSIVE ${recentMakes}, reached(lot) AS (
       SELECT b.lot FROM (${begins} UNION ${impossibleSums}) b
       UNION SELECT n.lot FROM reached r CROSS JOIN LATERAL (
         SELECT f.target AS lot FROM flow f WHERE f.organisation = $1 AND f.source = r.lot
         UNION ALL SELECT i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.same = r.lot
         OFFSET 0) n
     ) SELECT r.lot FROM reached r CROSS JOIN LATERAL (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = r.lot OFFSET 0) l`,
    [organisation, usingDispositions, now],
  );
  return rows.map((r) => r.lot);
}
