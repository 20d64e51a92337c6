import type { CollectionName, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { snake, table, type BookInfo } from '../../platform/ledger/index.js';
import { everAtSiteSql, foodAtSiteSql } from '../standing/index.js';
import type { Period } from './period.js';

/** A row with the entry that last wrote it: who and when stand there. */
export type RecordedRow<C extends CollectionName> = Row<C> & Pick<TableRow<C>, 'entry'>;

const within = (time: string): string => `"${time}" >= $3 AND "${time}" < $4`;
const here = (time = 'at'): string => `book = $2 AND ${within(time)}`;
/** Rows that belong to something of the period. */
const of = (field: string, parent: string, time = 'at'): string =>
  `book = $2 AND "${field}" IN (SELECT p.id FROM "${parent}" p WHERE p.organisation = $1 AND p.book = $2 AND p."${time}" >= $3 AND p."${time}" < $4)`;

/** Found by its id, so that the rows of ten years are not read for it. */
const either = (...ids: readonly string[]): string => `id IN (${ids.join(' UNION ')})`;
const inTime = (table: string, field = 'id'): string =>
  `SELECT p.${field} FROM "${table}" p WHERE p.organisation = $1 AND p.book = $2 AND p.at >= $3 AND p.at < $4`;
const next = (from: string, to: string, by: string, id = 'id', where = 'book = $2'): string =>
  `SELECT n.${id} AS id FROM (${from}) f CROSS JOIN LATERAL (SELECT ${id} FROM "${to}" WHERE organisation = $1 AND ${where} AND "${by}" = f.id OFFSET 0) n`;

/** A night may begin before midnight: what was begun in the period is whole here, with what was done to it afterwards. */
const makes = inTime('make');
const runs = next(makes, 'run', 'make');
const loads = next(runs, 'load_line', 'run', 'load');
const batches = next(makes, 'batch', 'make');
const begunHere = [makes, runs, loads, batches].join(' UNION ');
const aboutThese = (table: string): string => either(inTime(table), next(begunHere, table, 'subject'));
const loadsHere = [inTime('load'), loads].join(' UNION ');
/** What another site reported about food that was ever here: it belongs to each site that has or had the food. */
const reportedElsewhere = `SELECT p.id FROM (SELECT id FROM book WHERE organisation = $1 AND id <> $2 OFFSET 0) k CROSS JOIN LATERAL (
    SELECT id, subject FROM deviation WHERE organisation = $1 AND book = k.id AND at >= $3 AND at < $4 OFFSET 0) p WHERE ${foodAtSiteSql('p.subject', '$2')}`;
const deviations = [
  inTime('deviation'),
  next(begunHere, 'deviation', 'subject', 'id', 'true'),
  reportedElsewhere,
  inTime('deviation_closed', 'deviation'),
  inTime('disposition', 'deviation'),
].join(' UNION ');
/** What was done and decided about a deviation is told whichever site recorded it: a deviation is open, or closed, for the whole house. */
const ofDeviations = (table: string): string => either(next(deviations, table, 'deviation', 'id', 'true'));
const holds = [inTime('hold'), inTime('hold_lifted', 'hold')].join(' UNION ');
const placeHolds = [inTime('place_hold'), inTime('place_hold_ended', 'hold')].join(' UNION ');
/** A case is decided on in the book of the organisation, lot by lot: those that were ever at the site. */
const recallDecisions = (field: string): string =>
  `SELECT p.${field} FROM recall_decision p JOIN lot l ON l.organisation = $1 AND l.id = p.lot AND ${everAtSiteSql('l', '$2')} WHERE p.organisation = $1 AND p.at >= $3 AND p.at < $4`;

/** What is read of a site and a period: one query a collection. */
const conditions = {
  person: 'true',
  place: 'true',
  instrument: 'true',
  party:
    'party IN (SELECT d.supplier FROM delivery d WHERE d.organisation = $1 AND d.book = $2 AND d.received_at >= $3 AND d.received_at < $4)',
  planVersion: '(site IS NULL OR site = $2) AND since < $4',
  make: here(),
  run: of('make', 'make'),
  stage: aboutThese('stage'),
  load: either(loadsHere),
  loadLine: either(next(loadsHere, 'load_line', 'load')),
  loadStep: either(next(loadsHere, 'load_step', 'load')),
  batch: either(inTime('batch'), batches),
  release: either(inTime('release'), next([inTime('batch'), batches].join(' UNION '), 'release', 'batch')),
  reading: aboutThese('reading'),
  readingNotTaken: aboutThese('reading_not_taken'),
  deviation: either(deviations),
  correctiveAction: ofDeviations('corrective_action'),
  disposition: ofDeviations('disposition'),
  deviationClosed: ofDeviations('deviation_closed'),
  cleanDown: here(),
  instrumentCheck: here(),
  delivery: here('received_at'),
  lot: of('delivery', 'delivery', 'received_at'),
  receiptDecision: `(${here()}) OR lot IN (SELECT l.id FROM lot l JOIN delivery d ON d.organisation = $1 AND d.id = l.delivery WHERE l.organisation = $1 AND d.book = $2 AND d.received_at >= $3 AND d.received_at < $4)`,
  lotIdentified: `(${here()}) OR lot IN (SELECT l.id FROM lot l JOIN delivery d ON d.organisation = $1 AND d.id = l.delivery WHERE l.organisation = $1 AND d.book = $2 AND d.received_at >= $3 AND d.received_at < $4)`,
  hold: either(holds),
  placeHold: either(placeHolds),
  placeHoldEnded: `hold IN (${placeHolds})`,
  holdLifted: `hold IN (${holds})`,
  recallDecision: either(recallDecisions('id')),
  recallCase: either(recallDecisions('recall')),
  refusalEnded: here(),
  departure: `${here()} AND channel IN ('waste', 'feed', 'supplier-return')`,
  returned: `${here()} AND disposition IN ('waste', 'feed')`,
} as const satisfies Partial<Record<CollectionName, string>>;

type Names = keyof typeof conditions;
export type PeriodRows = { readonly [C in Names]: readonly RecordedRow<C>[] };

/** Of one type; a busy site records about a tenth of this in a month. Beyond it the period is asked for in parts. */
const maxRows = 20_000;

/** The rows of a site and a period, in order of time where they have one. A fixed number of queries, however many there are. */
export async function periodRows(client: ClientBase, site: BookInfo, { begins, ends }: Period): Promise<PeriodRows> {
  const rows: Partial<Record<Names, readonly object[]>> = {};
  for (const [name, condition] of Object.entries(conditions) as [Names, string][])
    rows[name] = await ask(client, name, condition, [site.organisation, site.id, begins, ends]); // the keys of a constant object
  return rows as PeriodRows; // one list for each key, of columns that are the collection's own fields
}

async function ask(client: ClientBase, name: Names, condition: string, values: readonly string[]): Promise<readonly object[]> {
  const { fields, name: called } = table(name);
  const time = fields.find(([field]) => field === 'at' || field === 'receivedAt' || field === 'since');
  const columns = fields.map(([field, column]) => `"${column}" AS "${field}"`).join(', ');
  const text = `SELECT id, entry, ${columns} FROM "${called}" WHERE organisation = $1 AND $2::uuid IS NOT NULL AND $3::timestamptz < $4::timestamptz AND (${condition})
    ORDER BY ${time ? `"${snake(time[0])}", ` : ''}id LIMIT ${maxRows + 1}`;
  const { rows } = await client.query<object>({ name: `inspect ${name}`, text, values: [...values] });
  if (rows.length > maxRows)
    throw new ProblemException({
      problem: 'unacceptable-value',
      field: 'from',
      acceptable: 'a shorter period: this one holds more than fits on one page',
    });
  return rows;
}

/** The number of deviations from before the period that are still open. */
export async function openBefore(client: ClientBase, site: BookInfo, { begins }: Period): Promise<number> {
  const { rows } = await client.query<{ open: Computed<number> }>(
    `SELECT count(*) AS open FROM deviation d WHERE d.organisation = $1 AND d.book = $2 AND d.at < $3
       AND NOT EXISTS (SELECT FROM deviation_closed c WHERE c.organisation = $1 AND c.deviation = d.id)`,
    [site.organisation, site.id, begins],
  );
  return rows[0]?.open ?? 0;
}

type BegunBeforeRow = Pick<TableRow<'make'>, 'id' | 'formulaName' | 'at'>;

/** The makes that began before the period and were baked, counted out or read in it. */
export async function begunBefore(client: ClientBase, site: BookInfo, { begins, ends }: Period): Promise<BegunBeforeRow[]> {
  const { rows } = await client.query<BegunBeforeRow>(
    `WITH named(id) AS MATERIALIZED (
       SELECT b.make FROM batch b WHERE b.organisation = $1 AND b.book = $2 AND b.at >= $3 AND b.at < $4
       UNION SELECT r.make FROM (${next(inTime('load'), 'load_line', 'load', 'run')}) l CROSS JOIN LATERAL (
         SELECT make FROM run WHERE organisation = $1 AND id = l.id OFFSET 0) r
       UNION SELECT p.subject FROM reading p WHERE p.organisation = $1 AND p.book = $2 AND p.at >= $3 AND p.at < $4 AND p.subject_type = 'make')
     SELECT m.id, m.formula_name AS "formulaName", m.at FROM named n CROSS JOIN LATERAL (
       SELECT id, formula_name, at FROM make WHERE organisation = $1 AND id = n.id AND at < $3 OFFSET 0) m ORDER BY m.at, m.id`,
    [site.organisation, site.id, begins, ends],
  );
  return rows;
}

export async function businessOf(client: ClientBase, organisation: string): Promise<string> {
  const { rows } = await client.query<Pick<TableRow<'organisation'>, 'name'>>('SELECT name FROM organisation WHERE id = $1', [
    organisation,
  ]);
  return rows[0]?.name ?? '';
}
