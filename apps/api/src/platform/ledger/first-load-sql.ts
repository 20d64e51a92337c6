/** The load lines of the day, product and oven of another, as a row with these: those among which the first load is read for all. $1 is the organisation. */
export const sameBake = (of: string): string =>
  `SELECT p.run, p.load, p.at FROM load_line p WHERE p.organisation = $1 AND p.bake_day = ${of}.bake_day AND p.product = ${of}.product AND p.oven = ${of}.oven`;

/** The runs that were baked the same day, of the same product in the same oven, as a load, and so rest on what is read at the first of these. */
export const restOn = (load: string): string =>
  `SELECT p.run FROM (SELECT bake_day, product, oven FROM load_line WHERE organisation = $1 AND load = ${load} OFFSET 0) o CROSS JOIN LATERAL (${sameBake('o')}) p`;

/** Of the batches of a run: their own loads, and the first of the day of each, by the points that are read there for all, where their plan has some. */
export const firstLoads = (run: string): string => `SELECT o.load AS own, f.load AS id, c.key, c.holds FROM (
        SELECT DISTINCT plan, product FROM batch WHERE organisation = $1 AND run = ${run} AND plan IS NOT NULL) made CROSS JOIN LATERAL (
        SELECT key, content ->> 'ifNotMonitored' = 'hold' AS holds FROM (SELECT key, content FROM control_point WHERE organisation = $1 AND plan = made.plan OFFSET 0) p
          WHERE content ->> 'frequency' = 'first-load-of-day' AND content ->> 'class' = 'ccp') c CROSS JOIN LATERAL (
        SELECT load, bake_day, product, oven FROM load_line WHERE organisation = $1 AND run = ${run} OFFSET 0) o CROSS JOIN LATERAL (
        ${sameBake('o')} ORDER BY p.at, p.load LIMIT 1) f`;

/** The last believable verdict of a point about a load. */
export const lastVerdict = (load: string, key: string): string =>
  `(SELECT r.verdict FROM (SELECT verdict, point_key, at, id FROM reading WHERE organisation = $1 AND subject = ${load} OFFSET 0) r
        WHERE r.point_key = ${key} AND r.verdict <> 'not-believable' ORDER BY r.at DESC, r.id DESC LIMIT 1)`;
