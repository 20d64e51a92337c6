import type { CollectionName, Row } from '@bakehouse/records';
import type { Touched, UsedFlow } from '@bakehouse/graph';
import type { ClientBase } from 'pg';
import { laterContentSql, table, type BookRef } from '../../platform/ledger/index.js';
import { houseDays, touchedBy } from '../standing/index.js';

/** Rows of a collection as its kinds wrote them, where a condition holds; $1 is the organisation. */
async function rowsOf<C extends CollectionName>(
  client: ClientBase,
  name: C,
  condition: string,
  values: readonly unknown[],
): Promise<Row<C>[]> {
  const { rows } = await client.query<Row<C>>(`${table(name).select} t WHERE organisation = $1 AND (${condition}) ORDER BY id`, [
    ...values,
  ]);
  return rows;
}

/** Batches counted out within the day, and whatever was put on the counter within a season and stands there now. */
export async function batchesOfToday(
  client: ClientBase,
  { organisation, id }: BookRef,
  from: string,
  until: string,
): Promise<{ readonly batches: Row<'batch'>[]; readonly onCounter: ReadonlySet<string> }> {
  const { rows } = await client.query<Pick<Row<'onCounter'>, 'lot'>>(
    `SELECT lot FROM (SELECT DISTINCT ON (lot) lot, way FROM on_counter WHERE organisation = $1 AND book = $2 AND at <= $3
       AND at > $3::timestamptz - interval '${houseDays} days' ORDER BY lot, at DESC, seq DESC) c WHERE way = 'on'`,
    [organisation, id, until],
  );
  const onCounter = rows.map((r) => r.lot);
  const batches = await rowsOf(client, 'batch', '(book = $2 AND at >= $3 AND at < $4) OR id = ANY($5)', [
    organisation,
    id,
    from,
    until,
    onCounter,
  ]);
  return { batches, onCounter: new Set(onCounter) };
}

/** Batches among these lots. */
export const batchesAmong = (client: ClientBase, organisation: string, lots: readonly string[]): Promise<Row<'batch'>[]> =>
  rowsOf(client, 'batch', 'id = ANY($2)', [organisation, lots]);

/** What went into one lot of the frontier, looked up by index. */
const intoOne = `SELECT f.source, f.target FROM flow f WHERE f.organisation = $1 AND f.target = r.lot
  UNION ALL SELECT n.lot, f.target FROM flow f CROSS JOIN LATERAL (${laterContentSql('f')}) n WHERE f.organisation = $1 AND f.target = r.lot
  UNION ALL SELECT i.same, i.lot FROM lot_identified i WHERE i.organisation = $1 AND i.lot = r.lot AND i.same IS NOT NULL OFFSET 0`;

/** What went into these lots, however indirectly, and what a name given later stands for. */
export async function intoLots(client: ClientBase, organisation: string, lots: readonly string[]): Promise<UsedFlow[]> {
  const { rows } = await client.query<Pick<Row<'flow'>, 'source' | 'target'>>(
    `WITH RECURSIVE reach(lot) AS (SELECT unnest($2::uuid[]) UNION SELECT n.source FROM reach r CROSS JOIN LATERAL (${intoOne}) n)
     SELECT DISTINCT n.source, n.target FROM reach r CROSS JOIN LATERAL (${intoOne}) n`,
    [organisation, lots],
  );
  return rows;
}

/** Makes that may have left traces in these, by the rule of every trace: what shared a bowl that was not cleaned since anything was last put in. */
export async function touchedBefore(client: ClientBase, organisation: string, lots: readonly string[]): Promise<Touched[]> {
  const { rows } = await client.query<{ before: Row<'make'>['id']; after: Row<'make'>['id'] }>(
    `SELECT b.id AS before, n.id AS after FROM unnest($2::uuid[]) a(lot)
     CROSS JOIN LATERAL (SELECT n.* FROM make n WHERE n.organisation = $1 AND n.id = a.lot AND n.station IS NOT NULL OFFSET 0) n
     CROSS JOIN LATERAL (${touchedBy}) b`,
    [organisation, lots],
  );
  return rows;
}

export const lotsOf = (client: ClientBase, organisation: string, lots: readonly string[]): Promise<Row<'lot'>[]> =>
  rowsOf(client, 'lot', 'id = ANY($2)', [organisation, lots]);

export const makesOf = (client: ClientBase, organisation: string, makes: readonly string[]): Promise<Row<'make'>[]> =>
  rowsOf(client, 'make', 'id = ANY($2)', [organisation, makes]);

/** Changes from their formulas, of makes among these lots. */
export const oneOffsOf = (client: ClientBase, organisation: string, lots: readonly string[]): Promise<Row<'oneOff'>[]> =>
  rowsOf(client, 'oneOff', 'make = ANY($2)', [organisation, lots]);

/**
 * Openings at a site until now, of whatever was opened there within the day, back to the one before the day that replaced what was there (as `openAt`
 * says); with what was emptied of them.
 */
export async function openings(
  client: ClientBase,
  { organisation, id }: BookRef,
  from: string,
  until: string,
): Promise<{ readonly opened: Row<'inUse'>[]; readonly emptied: Row<'emptied'>[] }> {
  const opened = await rowsOf(
    client,
    'inUse',
    `id = ANY(ARRAY(
       SELECT o.id FROM (SELECT DISTINCT u.station, u.material FROM in_use u WHERE u.organisation = $1 AND u.book = $2 AND u.at >= $3 AND u.at < $4) p
       CROSS JOIN LATERAL (
         SELECT coalesce((SELECT b.at FROM in_use b WHERE b.organisation = $1 AND b.station = p.station AND b.material = p.material
           AND b.at < $3 AND NOT b.beside ORDER BY b.at DESC LIMIT 1), '-infinity') AS at OFFSET 0) since CROSS JOIN LATERAL (
         SELECT u.id FROM in_use u WHERE u.organisation = $1 AND u.station = p.station AND u.material = p.material AND u.book = $2 AND u.at < $4
           AND u.at >= since.at OFFSET 0) o))`,
    [organisation, id, from, until],
  );
  const of = (pick: (o: Row<'inUse'>) => string): string[] => [...new Set(opened.map(pick))];
  const emptied = await rowsOf(client, 'emptied', 'book = $2 AND at < $3 AND station = ANY($4) AND lot = ANY($5)', [
    organisation,
    id,
    until,
    of((o) => o.station),
    of((o) => o.lot),
  ]);
  return { opened, emptied };
}

export interface HouseBooks {
  readonly specifications: Row<'specification'>[];
  readonly formulas: Row<'formulaVersion'>[];
}

/** What materials are and how things are made here, every version. */
export async function houseBooks(client: ClientBase, organisation: string): Promise<HouseBooks> {
  return {
    specifications: await rowsOf(client, 'specification', 'true', [organisation]),
    formulas: await rowsOf(client, 'formulaVersion', 'true', [organisation]),
  };
}
