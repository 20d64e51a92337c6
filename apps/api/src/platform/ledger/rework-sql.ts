import { longestReworkDays } from '@bakehouse/records';
import { laterContentSql } from './later-content.js';

/** What a formula says of rework; none where it says nothing. */
export const saysOfRework = (version: string): string =>
  `SELECT content -> 'rework' AS rule, content -> 'lines' AS lines FROM formula_version WHERE organisation = $1 AND id = ${version}
          AND jsonb_typeof(content -> 'rework') = 'object' OFFSET 0`;

const names = (rule: string, material: string): string =>
  `${rule} -> 'sources' @> jsonb_build_array(jsonb_build_object('material', ${material}::text))`;
const wasNamed = (lot: string): string =>
  `EXISTS (SELECT FROM lot_identified i WHERE i.organisation = $1 AND i.lot = ${lot} AND i.same IS NOT NULL)`;

/** Whether something in a lot, or in a vessel's content that it is, was made before an instant, or nobody knows when. */
const tooOld = (f: string, before: string): string => `EXISTS (
        WITH RECURSIVE inside(id, type, at) AS (SELECT ${f}.source, ${f}.lot_type, ${f}.made UNION SELECT s.id, s.type, s.at FROM inside i CROSS JOIN LATERAL (
          SELECT source FROM flow WHERE organisation = $1 AND target = i.id AND mg IS DISTINCT FROM 0 OFFSET 0) g CROSS JOIN LATERAL (
          SELECT id, type, at FROM lot WHERE organisation = $1 AND id = g.source OFFSET 0) s WHERE i.type = 'vessel' AND i.at >= ${before})
        SELECT FROM inside i WHERE i.at < ${before} OR EXISTS (SELECT FROM make_ended e WHERE e.organisation = $1 AND e.make = i.id AND e.at < ${before}) OR i.type IN ('placeholder', 'withdrawn') OR ${wasNamed('i.id')})`;

/** Whether something was put back on the way to a lot more often than that. Behind a clear lot nothing counts. */
const tooOften = (f: string, most: string): string => `EXISTS (
        WITH RECURSIVE back(lot, times) AS (SELECT ${f}.source, 1 UNION SELECT n.lot, b.times + n.step FROM back b CROSS JOIN LATERAL (
          SELECT o.lot, CASE WHEN g.type = 'rework' OR EXISTS (
            SELECT FROM make y CROSS JOIN LATERAL (${saysOfRework('y.formula_version')}) r JOIN lot l ON l.organisation = $1 AND l.id = o.lot
              WHERE y.organisation = $1 AND y.id = b.lot AND (${names('r.rule', 'l.material')} OR ${wasNamed('o.lot')})) THEN 1 ELSE 0 END AS step
          FROM (SELECT source, target, type, at FROM flow WHERE organisation = $1 AND target = b.lot OFFSET 0) g CROSS JOIN LATERAL (
            SELECT g.source AS lot UNION ALL SELECT c.lot FROM (${laterContentSql('g')}) c) o
          WHERE g.at >= ${f}.at - interval '${longestReworkDays} days' AND NOT EXISTS (SELECT FROM clear_lot k WHERE k.organisation = $1 AND k.lot = b.lot)
          UNION ALL SELECT i.same, 0 FROM lot_identified i WHERE i.organisation = $1 AND i.lot = b.lot AND i.same IS NOT NULL
        OFFSET 0) n WHERE b.times <= ${most})
        SELECT FROM back WHERE times > ${most})`;

/** Above the limit by what was weighed in, or the amount of some of it is not known. A piece has no weight here, and flour that may be something else is left out. */
const tooMuch = (
  most: string,
): string => `(${most} IS NOT NULL AND (SELECT bool_or(p.mg IS NULL) OR sum(p.mg) * 10000 > ${most} * coalesce((
          SELECT sum(o.mg) FROM put o WHERE NOT o.back AND o.any_of IS NULL AND o.lot_type <> 'vessel' AND o.type <> 'aid'
            AND (${lineOfFlour('o.material')} OR EXISTS (
              SELECT FROM one_off x WHERE x.organisation = $1 AND x.make = w.lot AND x.instead = o.material AND ${lineOfFlour('x.material')}))), 0)
        FROM (SELECT DISTINCT ON (coalesce(any_of, id)) mg FROM put WHERE back) p))`;
const lineOfFlour = (material: string): string =>
  `v.lines @> jsonb_build_array(jsonb_build_object('material', ${material}::text, 'flour', true))`;

const most = (limit: string): string => `(v.rule ->> '${limit}')::bigint`;

/** What was put back into a make is against the rule of its formula: not one of its sources, from outside, too old, too often, or too much of the flour. */
export const reworkAgainst = `SELECT 1 FROM (SELECT id, formula_version FROM make WHERE organisation = $1 AND id = w.lot OFFSET 0) m
      CROSS JOIN LATERAL (${saysOfRework('m.formula_version')}) v CROSS JOIN LATERAL (
        WITH put AS (SELECT f.*, l.type AS lot_type, l.material, l.at AS made, f.type = 'rework' OR ${names('v.rule', 'l.material')} AS back
          FROM (SELECT id, source, mg, at, type, any_of FROM flow WHERE organisation = $1 AND target = m.id OFFSET 0) f CROSS JOIN LATERAL (
            SELECT type, material, at FROM lot WHERE organisation = $1 AND id = f.source OFFSET 0) l)
        SELECT FROM put f WHERE ${wasNamed('f.source')} OR (f.back AND (NOT ${names('v.rule', 'f.material')}
          OR f.lot_type IN ('received', 'placeholder', 'withdrawn')
          OR ${tooOld('f', `(f.at - ${most('maxAgeHours')} * interval '1 hour')`)}
          OR ${tooOften('f', most('maxTimes'))}
          OR ${tooMuch(most('maxFlourBp'))})) LIMIT 1) against`;
