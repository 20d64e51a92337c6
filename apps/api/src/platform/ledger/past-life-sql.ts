import { laterContentSql } from './later-content.js';

/** Whether any plan ever said that food past its life is on hold: asked once, before anything is looked up for it. */
export const lifeEverHolds = `EXISTS (SELECT FROM plan_life WHERE organisation = $1 AND rule = 'life' AND (opened = 'hold' OR made_here = 'hold'))`;

/** Whether any plan for a site ever said so of a life. Which was in force then is left to the rules. */
const everSaid = (life: 'opened' | 'made_here', site: string): string =>
  `EXISTS (SELECT FROM plan_life p WHERE p.organisation = $1 AND p.rule = 'life' AND p.${life} = 'hold' AND (p.site IS NULL OR p.site = ${site}))`;

/** Whether a lot was past a life of its own at an instant. What was emptied or opened anew since is left to the rules. */
const endedOf = (lot: string, at: string): string => `
    SELECT 1 FROM (SELECT at, site, formula_version FROM make WHERE organisation = $1 AND id = ${lot} OFFSET 0) m CROSS JOIN LATERAL (
      SELECT (content->>'lifeHours')::int AS hours FROM formula_version WHERE organisation = $1 AND id = m.formula_version OFFSET 0) v
      WHERE v.hours IS NOT NULL AND coalesce((SELECT max(e.at) FROM (SELECT at FROM make_ended WHERE organisation = $1 AND make = ${lot} OFFSET 0) e), m.at)
        + v.hours * interval '1 hour' < ${at} AND ${everSaid('made_here', 'm.site')}
    UNION ALL SELECT 1 FROM (SELECT at, site, specification FROM in_use WHERE organisation = $1 AND lot = ${lot} OFFSET 0) u CROSS JOIN LATERAL (
      SELECT life_opened_hours AS hours FROM specification WHERE organisation = $1 AND id = u.specification OFFSET 0) s
      WHERE s.hours IS NOT NULL AND u.at + s.hours * interval '1 hour' < ${at} AND ${everSaid('opened', 'u.site')}`;

/** Whether a lot may have been past its life at an instant: itself, what it turned out to be, or what is in a vessel that it is the content of. More rather than fewer. */
export const mayBePastLife = (
  lot: string,
  at: string,
): string => `WITH RECURSIVE holds(lot) AS (SELECT ${lot} UNION SELECT n.lot FROM holds h CROSS JOIN LATERAL (
      SELECT i.same AS lot FROM lot_identified i WHERE i.organisation = $1 AND i.lot = h.lot AND i.same IS NOT NULL
      UNION ALL SELECT g.source FROM (SELECT id, type FROM lot WHERE organisation = $1 AND id = h.lot OFFSET 0) v CROSS JOIN LATERAL (
        SELECT source FROM flow WHERE organisation = $1 AND target = v.id OFFSET 0) g
        WHERE v.type = 'vessel' AND NOT EXISTS (SELECT FROM clear_lot k WHERE k.organisation = $1 AND k.lot = v.id)
      UNION ALL SELECT c.lot FROM (SELECT id, type FROM lot WHERE organisation = $1 AND id = h.lot OFFSET 0) v CROSS JOIN LATERAL (
        SELECT source, target, at FROM flow WHERE organisation = $1 AND target = v.id OFFSET 0) f CROSS JOIN LATERAL (${laterContentSql('f')}) c WHERE v.type = 'vessel'
      OFFSET 0) n)
    SELECT FROM holds h CROSS JOIN LATERAL (${endedOf('h.lot', at)} LIMIT 1) ended LIMIT 1`;

/** Something went into it past its life. */
export const usedPastLife = `SELECT 1 FROM (SELECT source, target, at FROM flow WHERE organisation = $1 AND target = w.lot OFFSET 0) f CROSS JOIN LATERAL (
        SELECT f.source AS lot UNION ALL SELECT c.lot FROM (${laterContentSql('f')}) c) s CROSS JOIN LATERAL (
        ${mayBePastLife('s.lot', 'f.at')}) past WHERE (SELECT ${lifeEverHolds})`;

/** Of some lots, `lot` of a row `w`, those that may be past their life at an instant. No record is made of that: it is asked by the clock. */
export const pastLifeAmong = (lots: string, at: string): string =>
  `SELECT w.lot FROM (${lots}) w CROSS JOIN LATERAL (${mayBePastLife('w.lot', at)}) past WHERE (SELECT ${lifeEverHolds})`;
