import { ovenDays } from '@bakehouse/records';

const over = (hold: string): string =>
  `least(${hold}.ends, (SELECT min(e.at) FROM place_hold_ended e WHERE e.organisation = $1 AND e.hold = ${hold}.id))`;

/** The loads that a batch was baked in, or more of its run's. */
const loadsOf = (
  lot: string,
): string => `SELECT l.load AS id FROM (SELECT run, loads FROM batch WHERE organisation = $1 AND id = ${lot} OFFSET 0) b CROSS JOIN LATERAL (
          SELECT load FROM load_line WHERE organisation = $1 AND run = b.run UNION SELECT t::uuid FROM jsonb_array_elements_text(b.loads) t) l`;
const isDeckIn = (oven: string): string => `SELECT id FROM place WHERE organisation = $1 AND within = ${oven} AND type = 'deck'`;
const notEndedBefore = (make: string, begins: string): string => `coalesce((SELECT max(n.at) FROM (
          SELECT at FROM divided WHERE organisation = $1 AND make = ${make} UNION ALL SELECT at FROM make_ended WHERE organisation = $1 AND make = ${make}) n), 'infinity') >= ${begins}`;

/** Of what was carried away as an amount, the rest stayed where it was. */
const aPart = '(mg IS NOT NULL OR pieces IS NOT NULL)';

/** Where a lot was while a hold stood, as its own rows tell: more rather than fewer. `h` has when it began and was over. */
const spotsOf = (lot: string): string => `SELECT to_place AS place FROM moved WHERE organisation = $1 AND lot = ${lot} AND at <= h.over
        UNION ALL SELECT from_place FROM moved WHERE organisation = $1 AND lot = ${lot} AND from_place IS NOT NULL AND (at >= h.begins OR ${aPart})
        UNION ALL SELECT place FROM counted WHERE organisation = $1 AND lot = ${lot} AND place IS NOT NULL AND at <= h.over
        UNION ALL SELECT u.station FROM (SELECT station, at FROM in_use WHERE organisation = $1 AND lot = ${lot} AND at <= h.over OFFSET 0) u
          WHERE NOT EXISTS (SELECT FROM emptied e WHERE e.organisation = $1 AND e.lot = ${lot} AND e.station = u.station AND e.at >= u.at AND e.at < h.begins)
        UNION ALL SELECT m.station FROM (SELECT id, station FROM make WHERE organisation = $1 AND id = ${lot} AND station IS NOT NULL AND at <= h.over OFFSET 0) m
          WHERE ${notEndedBefore('m.id', 'h.begins')}
        UNION ALL SELECT t.place FROM (SELECT ${lot} AS id UNION ALL ${loadsOf(lot)}) s CROSS JOIN LATERAL (
          SELECT place FROM stage WHERE organisation = $1 AND subject = s.id AND place IS NOT NULL AND (at <= h.over OR way = 'out') OFFSET 0) t
        UNION ALL SELECT p.id FROM (${loadsOf(lot)}) s CROSS JOIN LATERAL (
          SELECT oven, deck FROM load WHERE organisation = $1 AND id = s.id AND at <= h.over AND at >= h.begins - interval '${ovenDays} days' OFFSET 0) l CROSS JOIN LATERAL (
          SELECT l.oven AS id UNION ALL SELECT l.deck WHERE l.deck IS NOT NULL UNION ALL SELECT d.id FROM (${isDeckIn('l.oven')} OFFSET 0) d WHERE l.deck IS NULL) p`;

/** What turned out to be a lot was where that was. */
const namesOf = (lot: string): string => `WITH RECURSIVE names(id) AS (SELECT ${lot} UNION SELECT i.lot FROM names n CROSS JOIN LATERAL (
          SELECT lot FROM lot_identified WHERE organisation = $1 AND same = n.id OFFSET 0) i) SELECT id FROM names`;

/**
 * A lot of `w` was at a place on hold, or within it, unless a decision about it covers what came of it as well. Where no place was ever put on hold, one look-up finds that.
 * $1 is the organisation.
 */
export const atHeldPlace = `SELECT 1 FROM (SELECT h.id, h.place, h.begins, coalesce(${over('h')}, 'infinity') AS over FROM place_hold h WHERE h.organisation = $1 AND h.held = 'place' OFFSET 0) h
      CROSS JOIN LATERAL (${namesOf('w.lot')}) o CROSS JOIN LATERAL (${spotsOf('o.id')}) s CROSS JOIN LATERAL (
        WITH RECURSIVE around(id) AS (SELECT s.place UNION SELECT p.within FROM around a CROSS JOIN LATERAL (
          SELECT within FROM place WHERE organisation = $1 AND id = a.id AND within IS NOT NULL OFFSET 0) p)
        SELECT FROM around a WHERE a.id = h.place LIMIT 1) there
      WHERE NOT EXISTS (SELECT FROM (SELECT refusal, covers FROM refusal_ended WHERE organisation = $1 AND lot = w.lot OFFSET 0) e WHERE e.refusal = h.id AND e.covers = 'what-came-of-it')`;

/**
 * The lots and loads that were at places on hold which some of these places are or stand within, from the places onwards: what a new hold may have begun at. $1 is
 * the organisation.
 */
export const atHeldPlaces = (
  places: string,
): string => `WITH RECURSIVE above(id) AS (SELECT unnest(${places}::uuid[]) UNION SELECT p.within FROM above a CROSS JOIN LATERAL (
        SELECT within FROM place WHERE organisation = $1 AND id = a.id AND within IS NOT NULL OFFSET 0) p),
      spot(id, begins, over) AS (
        SELECT h.place, h.begins, coalesce(${over('h')}, 'infinity') FROM place_hold h WHERE h.organisation = $1 AND h.held = 'place' AND h.place IN (SELECT id FROM above)
        UNION SELECT p.id, s.begins, s.over FROM spot s CROSS JOIN LATERAL (SELECT id FROM place WHERE organisation = $1 AND within = s.id OFFSET 0) p),
      baked(id) AS (
        SELECT l.id FROM spot s CROSS JOIN LATERAL (
          SELECT id FROM load WHERE organisation = $1 AND oven = s.id AND at <= s.over AND at >= s.begins - interval '${ovenDays} days'
          UNION ALL SELECT id FROM load WHERE organisation = $1 AND deck = s.id AND at <= s.over AND at >= s.begins - interval '${ovenDays} days'
          UNION ALL SELECT l.id FROM (SELECT within FROM place WHERE organisation = $1 AND id = s.id AND type = 'deck' AND within IS NOT NULL OFFSET 0) o CROSS JOIN LATERAL (
            SELECT id, deck FROM load WHERE organisation = $1 AND oven = o.within AND at <= s.over AND at >= s.begins - interval '${ovenDays} days' OFFSET 0) l WHERE l.deck IS NULL
          OFFSET 0) l),
      stood(id) AS (
        SELECT t.id FROM spot s CROSS JOIN LATERAL (
          SELECT lot AS id FROM moved WHERE organisation = $1 AND to_place = s.id AND at <= s.over
          UNION ALL SELECT lot FROM moved WHERE organisation = $1 AND from_place = s.id AND (at >= s.begins OR ${aPart})
          UNION ALL SELECT lot FROM counted WHERE organisation = $1 AND place = s.id AND at <= s.over
          UNION ALL SELECT u.lot FROM (SELECT lot, station, at FROM in_use WHERE organisation = $1 AND station = s.id AND at <= s.over OFFSET 0) u
            WHERE NOT EXISTS (SELECT FROM emptied e WHERE e.organisation = $1 AND e.lot = u.lot AND e.station = u.station AND e.at >= u.at AND e.at < s.begins)
          UNION ALL SELECT m.id FROM (SELECT id FROM make WHERE organisation = $1 AND station = s.id AND at <= s.over OFFSET 0) m WHERE ${notEndedBefore('m.id', 's.begins')}
          UNION ALL SELECT subject FROM stage WHERE organisation = $1 AND place = s.id AND (at <= s.over OR way = 'out')
          OFFSET 0) t)
    SELECT id FROM baked UNION SELECT id FROM stood`;
