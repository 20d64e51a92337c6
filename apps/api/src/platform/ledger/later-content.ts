import { lateDays } from '@bakehouse/records';

/**
 * What the rules say of somebody who names a content of a vessel that was over by then (`laterContent` in records), as SQL for walks that look each lot up
 * by an index; $1 is the organisation. Whatever is no content of a vessel costs one look-up.
 */

/** The id of the row that says that a content is in its vessel: `contentId`. */
export const contentIdSql = (lot: string): string => derivedIdSql(lot, 'content');
/** An id that is derived from another by a word, as `derivedId` does it. */
export const derivedIdSql = (of: string, word: string): string =>
  `(SELECT encode(set_byte(set_byte(h, 6, (get_byte(h, 6) & 15) | 128), 8, (get_byte(h, 8) & 63) | 128), 'hex')::uuid
    FROM (SELECT substring(sha256(${of}::text::bytea || '\\x00'::bytea || '${word}'::bytea) FROM 1 FOR 16) AS h) x)`;

/** Of a lot that is a content: its vessel, and since when it is in it. */
const contentOf = (lot: string): string => `
  SELECT u.station, u.at, u.id FROM (SELECT id, type FROM lot WHERE organisation = $1 AND id = ${lot} OFFSET 0) y CROSS JOIN LATERAL (
    SELECT u.station, u.at, u.id FROM in_use u WHERE u.organisation = $1 AND u.id = ${contentIdSql('y.id')} OFFSET 0) u
  WHERE y.type = 'vessel' OFFSET 0`;

/** Contents of one vessel beside a moment, the nearest first. */
const contents = (station: string, beside: string, order: 'ASC' | 'DESC'): string => `
  SELECT u.lot, u.at, u.id FROM in_use u WHERE u.organisation = $1 AND u.station = ${station} AND ${beside} AND u.id = ${contentIdSql('u.lot')}
  ORDER BY u.station ${order}, u.at ${order}, u.id ${order}`;
const after = (c: string): string => `(u.at, u.id) > (${c}.at, ${c}.id) AND u.at >= ${c}.at`;
const before = (c: string): string => `(u.at, u.id) < (${c}.at, ${c}.id) AND u.at <= ${c}.at`;
const wasOver = (lot: string, station: string, at: string): string =>
  `EXISTS (SELECT FROM emptied e WHERE e.organisation = $1 AND e.lot = ${lot} AND e.station = ${station} AND e.at <= ${at})`;

/** The content that a flow may have been of instead of the one that it names, as `lot`; no row where the one that it names was there. */
export const laterContentSql = (flow: string): string => `
  SELECT n.lot FROM (${contentOf(`${flow}.source`)}) c CROSS JOIN LATERAL (
    ${contents('c.station', `${after('c')} AND u.at <= ${flow}.at`, 'DESC')} LIMIT 1) n
  CROSS JOIN LATERAL (${contents('c.station', after('c'), 'ASC')} LIMIT 1) over
  WHERE ${wasOver(`${flow}.source`, 'c.station', `${flow}.at`)} AND n.lot <> ${flow}.target AND over.at > n.at - interval '${lateDays} days'`;

/** The flows that may have been of this content, though they name one that was over. */
export const takenLateSql = (lot: string): string => `
  SELECT f.* FROM (${contentOf(lot)}) c
  LEFT JOIN LATERAL (${contents('c.station', after('c'), 'ASC')} LIMIT 1) next ON true
  CROSS JOIN LATERAL (
    (${contents('c.station', `${before('c')} AND u.at > c.at - interval '${lateDays} days'`, 'DESC')})
    UNION ALL (${contents('c.station', `${before('c')} AND u.at <= c.at - interval '${lateDays} days'`, 'DESC')} LIMIT 1)) p
  CROSS JOIN LATERAL (SELECT f.* FROM flow f WHERE f.organisation = $1 AND f.source = p.lot AND f.at >= c.at OFFSET 0) f
  WHERE (next.at IS NULL OR f.at < next.at) AND f.target <> ${lot} AND ${wasOver('p.lot', 'c.station', 'f.at')}`;
