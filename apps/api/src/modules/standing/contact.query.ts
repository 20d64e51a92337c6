import { leavesContact } from '@bakehouse/records';
import { wordsSql } from '../../platform/ledger/index.js';
import { houseDays } from './house-days.js';

/** Nobody puts anything into a make longer than so many days after its bowl was cleaned under it. */
const openDays = 3;

const ending = `c.type <> ALL (${wordsSql(leavesContact)})`;

/**
 * Until when a make, as a row `m`, may touch what is made next at its station, as `at`: until the first cleaning that ends contact once nothing more was put
 * into it. A cleaning before that left the bowl as the make found it, however long ago that was begun. $1 is the organisation.
 * Walks compare whole rows and ask for the index's own order: equalities could be answered by any index that begins alike, and without
 * statistics the planner may take one that reads all of a station or a site.
 */
export const contactEnds = `
  SELECT coalesce(
    (SELECT c.at FROM clean_down c WHERE c.organisation = $1 AND (c.place, c.at) > (m.station, last.at) AND (c.place, c.at) < (m.station, 'infinity') AND ${ending}
     ORDER BY c.place, c.at LIMIT 1),
    'infinity') AS at
  FROM (SELECT greatest(m.at,
    (SELECT max(f.at) FROM flow f WHERE f.organisation = $1 AND f.target = m.id),
    (SELECT max(x.at) FROM mixed x WHERE x.organisation = $1 AND x.make = m.id)) AS at OFFSET 0) last OFFSET 0`;

/**
 * The makes that may touch a make, as a row `n`, at its station, as `id`: those begun since that was last cleaned, and those begun before it that something was
 * put into since. No longer ago than a season.
 */
export const touchedBy = `
  SELECT m.id FROM (SELECT coalesce(
    (SELECT c.at FROM clean_down c WHERE c.organisation = $1 AND (c.place, c.at) > (n.station, '-infinity') AND (c.place, c.at) <= (n.station, n.at) AND ${ending}
     ORDER BY c.place DESC, c.at DESC LIMIT 1), '-infinity') AS at OFFSET 0) cleaned
  CROSS JOIN LATERAL (SELECT greatest(cleaned.at, n.at - interval '${houseDays} days') AS at OFFSET 0) since
  CROSS JOIN LATERAL (
    (SELECT m.id, m.station, m.at FROM make m WHERE m.organisation = $1 AND (m.station, m.at) >= (n.station, since.at) AND (m.station, m.at) < (n.station, n.at)
     ORDER BY m.station, m.at)
    UNION
    SELECT m.id, m.station, m.at FROM (
      SELECT f.target AS make FROM flow f WHERE f.organisation = $1 AND f.book = n.book AND f.at >= since.at AND f.at <= cleaned.at + interval '${openDays} days'
      UNION SELECT x.make FROM mixed x WHERE x.organisation = $1 AND x.book = n.book AND x.at >= since.at AND x.at <= cleaned.at + interval '${openDays} days') used
    CROSS JOIN LATERAL (SELECT m.id, m.station, m.at FROM make m WHERE m.organisation = $1 AND m.id = used.make OFFSET 0) m
    WHERE m.station = n.station AND m.at < since.at) m
  CROSS JOIN LATERAL (${contactEnds}) own
  WHERE own.at > n.at`;
