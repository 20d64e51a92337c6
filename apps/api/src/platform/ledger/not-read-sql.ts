import { formulaSteps, staysAway } from '@bakehouse/records';
import { firstLoads } from './first-load-sql.js';
import { wordsSql } from './table.js';

/** When a lot was used first: something else was made of it or of what turned out to be it, it was released, sent to somebody or put on a counter. */
const usedFirst = `SELECT min(n.at) AS at FROM (
        SELECT f.at FROM (SELECT w.lot AS id UNION ALL SELECT i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.same = w.lot) o CROSS JOIN LATERAL (
          SELECT at FROM flow WHERE organisation = $1 AND source = o.id AND type NOT IN ('divided', 'batched')
          UNION ALL SELECT at FROM departure WHERE organisation = $1 AND lot = o.id AND decided IS NULL AND channel <> ALL (${wordsSql(staysAway)})
          UNION ALL SELECT at FROM on_counter WHERE organisation = $1 AND lot = o.id AND way = 'on'
          OFFSET 0) f
        UNION ALL SELECT at FROM release WHERE organisation = $1 AND batch = w.lot) n`;

/** The points of a plan at which a missed critical reading holds food, for what was made by a formula with these steps. */
const musts = (
  of: string,
  steps: string,
): string => `SELECT p.key, p.content ->> 'frequency' AS frequency, p.content -> 'products' AS products FROM (
          SELECT key, content FROM control_point WHERE organisation = $1 AND plan = ${of}.plan OFFSET 0) p
        WHERE p.content ->> 'class' = 'ccp' AND p.content ->> 'ifNotMonitored' = 'hold'
          AND (p.content -> 'formulas' = '[]' OR p.content -> 'formulas' ? ${of}.formula::text)
          AND (p.content -> 'formulas' <> '[]' OR p.content -> 'products' <> '[]' OR coalesce(${steps}, '[]') = '[]'
            OR ${steps} ? (p.content ->> 'step') OR p.content ->> 'step' <> ALL (${wordsSql(formulaSteps)}))`;

const notBy = (subject: string): string => `u.at IS NOT NULL AND NOT EXISTS (
        SELECT FROM (SELECT point_key, at FROM reading WHERE organisation = $1 AND subject = ${subject} OFFSET 0) r WHERE r.point_key = c.key AND r.at <= u.at)`;

/** A critical reading of a make was not taken by when that, or what was divided from it, was used first. */
export const makeNotRead = `SELECT 1 FROM (
        SELECT coalesce((SELECT source FROM flow WHERE organisation = $1 AND target = w.lot AND type = 'divided' LIMIT 1), w.lot) AS id OFFSET 0) s CROSS JOIN LATERAL (
        SELECT id, plan, formula, formula_version FROM make WHERE organisation = $1 AND id = s.id AND plan IS NOT NULL OFFSET 0) m LEFT JOIN LATERAL (
        SELECT jsonb_path_query_array(content, '$.steps[*].type') AS steps FROM formula_version WHERE organisation = $1 AND id = m.formula_version OFFSET 0) v ON true
      CROSS JOIN LATERAL (${musts('m', 'v.steps')}) c CROSS JOIN LATERAL (${usedFirst}) u
      WHERE c.frequency = 'each-make' AND c.products = '[]' AND ${notBy('m.id')}`;

/** The same of a batch: of itself, its make, or the loads that it was baked in. */
export const batchNotRead = `SELECT 1 FROM (SELECT id, run, make, plan, product, formula, steps, loads FROM batch WHERE organisation = $1 AND id = w.lot AND plan IS NOT NULL OFFSET 0) b
      CROSS JOIN LATERAL (${musts('b', 'b.steps')}) c CROSS JOIN LATERAL (${usedFirst}) u CROSS JOIN LATERAL (
        SELECT b.make AS id WHERE c.frequency = 'each-make'
        UNION ALL SELECT b.id WHERE c.frequency = 'each-batch' OR (c.frequency IN ('each-load', 'first-load-of-day')
          AND NOT EXISTS (SELECT FROM load_line WHERE organisation = $1 AND run = b.run))
        UNION ALL SELECT o.id FROM (
          SELECT load AS id FROM load_line WHERE organisation = $1 AND run = b.run
          UNION ALL SELECT l::uuid FROM jsonb_array_elements_text(b.loads) l) o WHERE c.frequency = 'each-load'
        UNION ALL SELECT f.id FROM (${firstLoads('b.run')}) f WHERE c.frequency = 'first-load-of-day' AND f.key = c.key AND f.own = f.id
        OFFSET 0) s
      WHERE (c.products = '[]' OR c.products ? b.product::text) AND ${notBy('s.id')}`;
