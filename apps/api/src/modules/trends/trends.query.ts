import type { Row } from '@bakehouse/records';
import type { TrendBy } from '@bakehouse/contracts';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import type { BookInfo } from '../../platform/ledger/index.js';

type Reading = Row<'reading'>;
export interface SeriesRow extends Pick<Reading, 'parameter' | 'measured'> {
  readonly point: Reading['pointKey'];
  readonly pointName: Computed<string | null>;
  readonly of: Computed<string>;
  readonly name: Computed<string>;
  readonly unit: Computed<NonNullable<Reading['unit']>>;
  readonly readings: Computed<number>;
  readonly outside: Computed<number>;
  readonly latest: Reading['at'];
}
export interface ReadRow extends Pick<
  Reading,
  'id' | 'at' | 'figure' | 'unit' | 'judgedBy' | 'verdict' | 'class' | 'subjectType' | 'subject' | 'instrument' | 'corrected' | 'point'
> {
  readonly name: Computed<string>;
}
export type NotTakenRow = Pick<TableRow<'readingNotTaken'>, 'id' | 'at' | 'answer' | 'subject' | 'subjectType'>;

/** One series: of what, and what was read there. */
export interface SeriesAsked extends Pick<Reading, 'parameter' | 'measured'> {
  readonly point: Computed<string | null>;
  readonly by: Computed<TrendBy>;
  readonly of: Computed<string>;
}
export interface Between {
  readonly begins: Computed<string>;
  readonly ends: Computed<string>;
}

/** What a record of a subject is about, as `of` and its name, looked up by its key: an oven for a load, a formula for a make, a product for pieces, a material for goods. */
const ofSubject: Readonly<Record<Exclude<TrendBy, 'instrument'>, (r: string) => string>> = {
  place: (r) => `
    SELECT p.id AS of, p.name FROM place p WHERE ${r}.subject_type = 'place' AND p.organisation = $1 AND p.id = ${r}.subject
    UNION ALL SELECT p.id, p.name FROM load l JOIN place p ON p.organisation = $1 AND p.id = l.oven
      WHERE ${r}.subject_type = 'load' AND l.organisation = $1 AND l.id = ${r}.subject`,
  product: (r) => `
    SELECT m.formula AS of, m.formula_name AS name FROM make m WHERE ${r}.subject_type = 'make' AND m.organisation = $1 AND m.id = ${r}.subject
    UNION ALL SELECT u.product, u.product_name FROM run u WHERE ${r}.subject_type = 'run' AND u.organisation = $1 AND u.id = ${r}.subject
    UNION ALL SELECT b.product, b.product_name FROM batch b WHERE ${r}.subject_type = 'batch' AND b.organisation = $1 AND b.id = ${r}.subject
    UNION ALL SELECT DISTINCT x.product, x.product_name FROM load_line x WHERE ${r}.subject_type = 'load' AND x.organisation = $1 AND x.load = ${r}.subject
    UNION ALL SELECT l.material, l.name FROM lot l WHERE ${r}.subject_type = 'lot' AND l.material IS NOT NULL AND l.organisation = $1 AND l.id = ${r}.subject`,
};
const withInstrument = (r: string): string =>
  `SELECT i.id AS of, i.name FROM instrument i WHERE i.organisation = $1 AND i.id = ${r}.instrument`;
const subjects: Readonly<Record<TrendBy, (r: string) => string>> = { ...ofSubject, instrument: withInstrument };

/** Numbers alone: what was answered by yes or no has no course. */
const ofThePeriod = `SELECT * FROM reading WHERE organisation = $1 AND book = $2 AND at >= $3 AND at < $4 AND figure IS NOT NULL AND unit IS NOT NULL`;

/** What the control point of the newest reading is called. */
const pointName = `(SELECT c.content ->> 'name' FROM control_point c WHERE c.organisation = $1 AND c.id = (array_agg(r.point ORDER BY r.at DESC))[1])`;

/** Everything that was read in a period, put together in one of three ways: one line each, what was read last first. */
export async function seriesOf(client: ClientBase, site: BookInfo, by: TrendBy, { begins, ends }: Between): Promise<readonly SeriesRow[]> {
  const { rows } = await client.query<SeriesRow>({
    name: `series by ${by}`,
    text: `SELECT a.of, r.parameter, r.measured, r.point_key AS point, ${pointName} AS "pointName", (array_agg(a.name ORDER BY r.at DESC))[1] AS name, (array_agg(r.unit ORDER BY r.at DESC))[1] AS unit,
             count(*)::int AS readings, count(*) FILTER (WHERE r.verdict = 'outside')::int AS outside, max(r.at) AS latest
           FROM (${ofThePeriod}) r CROSS JOIN LATERAL (${subjects[by]('r')} OFFSET 0) a
           GROUP BY a.of, r.parameter, r.measured, r.point_key ORDER BY max(r.at) DESC, a.of, r.parameter, r.measured, r.point_key`,
    values: [site.organisation, site.id, begins, ends],
  });
  return rows;
}

/** The readings of one series in a period, in order of time. */
export async function readingsOf(
  client: ClientBase,
  site: BookInfo,
  { by, of, parameter, measured, point }: SeriesAsked,
  { begins, ends }: Between,
  limit: number,
): Promise<readonly ReadRow[]> {
  const { rows } = await client.query<ReadRow>({
    name: `readings of a series by ${by}`,
    text: `SELECT r.id, r.at, r.point, r.figure, r.unit, r.judged_by AS "judgedBy", r.verdict, r.class, r.subject_type AS "subjectType", r.subject, r.instrument, r.corrected, a.name
           FROM (${ofThePeriod} AND parameter = $6 AND measured = $7 AND point_key IS NOT DISTINCT FROM $9 OFFSET 0) r CROSS JOIN LATERAL (${subjects[by]('r')} OFFSET 0) a
           WHERE a.of = $5 ORDER BY r.at, r.id LIMIT $8`,
    values: [site.organisation, site.id, begins, ends, of, parameter, measured, limit, point],
  });
  return rows;
}

/** Where a value of this series was due and none was taken, with what was answered. No instrument was used. */
export async function notTakenOf(
  client: ClientBase,
  site: BookInfo,
  { by, of, parameter, measured, point }: SeriesAsked,
  { begins, ends }: Between,
): Promise<readonly NotTakenRow[]> {
  if (by === 'instrument' || point === null) return [];
  const { rows } = await client.query<NotTakenRow>({
    name: `not taken of a series by ${by}`,
    text: `SELECT n.id, n.at, n.answer, n.subject, n.subject_type AS "subjectType"
           FROM reading_not_taken n
           JOIN control_point c ON c.organisation = $1 AND c.id = n.point AND c.content ->> 'parameter' = $6 AND c.content ->> 'measured' = $7
           CROSS JOIN LATERAL (${ofSubject[by]('n')} OFFSET 0) a
           WHERE n.organisation = $1 AND n.book = $2 AND n.at >= $3 AND n.at < $4 AND n.point_key = $8 AND a.of = $5 ORDER BY n.at, n.id`,
    values: [site.organisation, site.id, begins, ends, of, parameter, measured, point],
  });
  return rows;
}
