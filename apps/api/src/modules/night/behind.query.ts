import { codeNow, firstLoads, staysUnnamed, unnamedAtFirst } from '../../platform/ledger/index.js';

/**
 * What lots from before a night are made of, so that a device can say what they wait for: of what was made and stands here, and of batches that nobody released,
 * their runs, makes and whatever went into those, as far as it is not noted as clear. Of a first load of a day that is read for what was baked later, all that is recorded about it, and about that. What is recorded about the readings of an older batch goes along, since one that is missing speaks against it whenever it was released. Lists of a WITH after `night_lot`.
 */
export const listsBehind = `, behind(id) AS MATERIALIZED (
    SELECT l.id FROM (SELECT id FROM night_lot) n CROSS JOIN LATERAL (SELECT id, type, at FROM lot WHERE organisation = $1 AND id = n.id OFFSET 0) l
      WHERE l.at < $3 AND (l.type IN ('made', 'old-dough', 'run', 'vessel')
        OR l.type = 'batch' AND NOT EXISTS (SELECT FROM release r WHERE r.organisation = $1 AND r.batch = l.id))
    UNION SELECT u.source FROM behind b CROSS JOIN LATERAL (
      SELECT source FROM (SELECT source FROM flow WHERE organisation = $1 AND target = b.id OFFSET 0) f
      UNION ALL SELECT same FROM (SELECT same FROM lot_identified WHERE organisation = $1 AND lot = b.id AND same IS NOT NULL OFFSET 0) i) u
      WHERE NOT EXISTS (SELECT FROM clear_lot c WHERE c.organisation = $1 AND c.lot = b.id)
  ), asked_batch(id, run, make) AS MATERIALIZED (
    SELECT b.id, b.run, b.make FROM unnest($5::uuid[]) a(id) CROSS JOIN LATERAL (SELECT id, run, make FROM batch WHERE organisation = $1 AND id = a.id OFFSET 0) b
  ), behind_subject(id) AS MATERIALIZED (
    SELECT id FROM behind
    UNION SELECT s.id FROM asked_batch b CROSS JOIN LATERAL (
      SELECT b.id UNION ALL SELECT b.make UNION ALL SELECT load FROM load_line WHERE organisation = $1 AND run = b.run OFFSET 0) s
    UNION SELECT o.load FROM behind b CROSS JOIN LATERAL (SELECT load FROM load_line WHERE organisation = $1 AND run = b.id OFFSET 0) o
    UNION SELECT u.load FROM (SELECT id FROM (SELECT unnest($5::uuid[]) AS id UNION SELECT id FROM behind UNION SELECT run FROM asked_batch) w) w CROSS JOIN LATERAL (${firstLoads('w.id')}) f
      CROSS JOIN LATERAL (SELECT unnest(ARRAY[f.own, f.id]) AS load) u
  ), unnamed(id, material, at, key) AS MATERIALIZED (
    SELECT l.id, l.material, l.at, lot_code_key(${codeNow('l')}) FROM (SELECT id FROM behind UNION SELECT id FROM night_lot) n CROSS JOIN LATERAL (
      SELECT id, material, at, type, delivery, code FROM lot WHERE organisation = $1 AND id = n.id OFFSET 0) l
      WHERE ${staysUnnamed('l')}
  ), might_be(id) AS MATERIALIZED (
    SELECT m.id FROM unnamed u CROSS JOIN (SELECT unnest(ARRAY['received', 'made', 'old-dough', 'vessel', 'run', 'batch', 'placeholder']) AS type) t CROSS JOIN LATERAL (
      SELECT l.id FROM lot l WHERE l.organisation = $1 AND l.material = u.material AND l.type = t.type AND l.at <= u.at AND NOT ${unnamedAtFirst('l')}
        AND (u.key IS NULL OR u.key = lot_code_key(${codeNow('l')})) ORDER BY l.at DESC LIMIT 1) m
  ), asked_lot(id) AS MATERIALIZED (SELECT unnest($5::uuid[])),
  older(id) AS MATERIALIZED (SELECT id FROM asked_lot UNION SELECT id FROM behind),
  behind_line(id) AS MATERIALIZED (
    SELECT l.id FROM older o CROSS JOIN LATERAL (SELECT id FROM load_line WHERE organisation = $1 AND run = o.id OFFSET 0) l
    UNION SELECT l.id FROM behind_subject b CROSS JOIN LATERAL (SELECT id FROM load_line WHERE organisation = $1 AND load = b.id OFFSET 0) l
  ), older_make(id) AS MATERIALIZED (SELECT id FROM older UNION SELECT id FROM night_lot),
  counted_lot(id) AS MATERIALIZED (SELECT id FROM asked_lot UNION SELECT id FROM might_be),
  shown_lot(id) AS MATERIALIZED (SELECT id FROM night_lot UNION SELECT id FROM unnamed UNION SELECT id FROM might_be),
  named_lot(id) AS MATERIALIZED (SELECT id FROM night_lot UNION SELECT id FROM behind UNION SELECT id FROM might_be)`;

export type ListBehind =
  | 'night_lot'
  | 'behind'
  | 'behind_subject'
  | 'behind_line'
  | 'asked_lot'
  | 'older'
  | 'older_make'
  | 'counted_lot'
  | 'shown_lot'
  | 'named_lot';
