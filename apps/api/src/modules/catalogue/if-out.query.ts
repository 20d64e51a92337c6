import type { IfInstrumentOut } from '@bakehouse/contracts';
import { doubtfulIfOut, trustNeeds, type Need, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { ProblemException } from '../../platform/http/index.js';
import { loadState, type BookRef } from '../../platform/ledger/index.js';
import { standingOf } from '../standing/index.js';

type ReadRow = Pick<Row<'reading'>, 'subject' | 'instrument' | 'class' | 'unit' | 'at'>;
type BatchRow = Pick<Row<'batch'>, 'id' | 'code'> & { readonly name: Row<'batch'>['productName'] };

/** The readings that would be in doubt if an instrument went out of use now, unchecked, and the batches behind them that are not surely gone. @throws ProblemException where the house has no such instrument */
export async function ifInstrumentOut(
  client: ClientBase,
  books: readonly BookRef[],
  { organisation }: BookRef,
  instrument: string,
  now: string,
): Promise<IfInstrumentOut> {
  const { rowCount } = await client.query('SELECT FROM instrument WHERE organisation = $1 AND id = $2', [organisation, instrument]);
  if (rowCount === 0) throw new ProblemException('unknown-instrument');
  const state = await loadState(client, books, (known): Need[] => [
    ...trustNeeds(known, instrument),
    { in: 'instrumentCheck', by: 'instrument', value: instrument },
  ]);
  const lastCheck = state
    .find('instrumentCheck', 'instrument', instrument)
    .map((c) => c.at)
    .sort()
    .at(-1);
  const { rows } = await client.query<ReadRow>(
    `SELECT subject, instrument, class, unit, at FROM reading
     WHERE organisation = $1 AND instrument = $2 AND class IN ('ccp', 'oprp') AND at > coalesce($3::timestamptz, '-infinity')`,
    [organisation, instrument, lastCheck ?? null],
  );
  const doubtful = rows.filter((r) => doubtfulIfOut(state, r));
  const batches = await batchesBehind(client, organisation, [...new Set(doubtful.map((r) => r.subject))]);
  const { standings } = await standingOf(
    client,
    books,
    batches.map((b) => b.id),
    now,
  );
  return {
    readings: doubtful.length,
    lastCheck: lastCheck ?? null,
    batches: batches.filter((b) => standings.get(b.id)?.gone === false),
  };
}

/** The batches that these are, or that came of these loads, runs and makes. */
async function batchesBehind(client: ClientBase, organisation: string, subjects: readonly string[]): Promise<readonly BatchRow[]> {
  const { rows } = await client.query<BatchRow>(
    `SELECT DISTINCT b.code, b.product_name AS name, b.id FROM unnest($2::uuid[]) s(subject) CROSS JOIN LATERAL (
       SELECT id, code, product_name FROM batch WHERE organisation = $1 AND id = s.subject
       UNION ALL SELECT id, code, product_name FROM batch WHERE organisation = $1 AND run = s.subject
       UNION ALL SELECT id, code, product_name FROM batch WHERE organisation = $1 AND make = s.subject
       UNION ALL SELECT b.id, b.code, b.product_name FROM load_line l JOIN batch b ON b.organisation = $1 AND b.run = l.run
         WHERE l.organisation = $1 AND l.load = s.subject
       OFFSET 0) b ORDER BY name, code`,
    [organisation, subjects],
  );
  return rows;
}
