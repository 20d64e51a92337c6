import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { idsOf, rowsBy, type Computed, type Maybe, type TableRow } from '../../platform/database/index.js';
import { laterContentSql, takenLateSql } from '../../platform/ledger/index.js';
import { either } from './either.js';
import { ofVessel, vesselsOf } from './vessels.js';

type Departed = TableRow<'departure'>;
type Party = Row<'party'>;
export interface DepartureRow
  extends
    Pick<
      Departed,
      | 'id'
      | 'lot'
      | 'channel'
      | 'customer'
      | 'pieces'
      | 'mg'
      | 'how'
      | 'certain'
      | 'anyOf'
      | 'decided'
      | 'at'
      | 'earliest'
      | 'until'
      | 'book'
    >,
    Maybe<Pick<Party, 'contactName' | 'phone'>> {
  readonly customerName: Maybe<Party>['name'];
  readonly customerType: Maybe<Party>['type'];
  readonly among: Computed<number>;
  readonly vulnerable: Computed<boolean>;
  readonly unattended: Computed<boolean>;
}
export interface ReturnedRow
  extends Pick<Row<'returned'>, 'id' | 'lot' | 'pieces' | 'mg' | 'how' | 'disposition' | 'site' | 'at'>, Maybe<Pick<Departed, 'channel'>> {
  readonly customerType: Maybe<Party>['type'];
}
export interface CountRow extends Pick<Row<'counted'>, 'id' | 'lot' | 'place' | 'pieces' | 'mg' | 'at'> {
  /** Null where a make was weighed at its end: `countsOf` in records. */
  readonly site: Computed<Row<'counted'>['site'] | null>;
}
export type CarriedRow = Pick<Row<'moved'>, 'lot' | 'toPlace' | 'mg' | 'pieces' | 'at'>;
export type CounterRow = Pick<TableRow<'onCounter'>, 'id' | 'lot' | 'way' | 'pieces' | 'site' | 'at' | 'earliest' | 'book'>;
export interface UseRow extends Pick<Row<'flow'>, 'pieces' | 'mg' | 'how' | 'type' | 'certain' | 'anyOf' | 'at'> {
  readonly among: Computed<number>;
  readonly lot: Row<'flow'>['source'];
}

export interface Ends {
  readonly departures: readonly DepartureRow[];
  readonly returned: readonly ReturnedRow[];
  readonly counts: readonly CountRow[];
  readonly counter: readonly CounterRow[];
  readonly carried: readonly CarriedRow[];
  readonly uses: readonly UseRow[];
}

/** The rows of one table that are about lots: all looked up in one pass along its index, however many rows the table has. */
const ofLots = (columns: string, table: string, by: string): string => `SELECT ${columns} FROM (${rowsBy(table, by)}) t`;

/** What was used of lots. Of a content that somebody named though it was over, and of the one that was there then, it is one amount of both. */
const used = `
  WITH f AS MATERIALIZED (
    SELECT id, source, target, mg, pieces, how, type, certain, any_of, at FROM (${rowsBy('flow', 'source')}) f
  ), ${vesselsOf('SELECT unnest($2::uuid[])')}
  SELECT t.lot, t.pieces, t.mg, t.how, t.type, t.certain AND NOT t.late AS certain, t.at,
    coalesce(t.any_of, CASE WHEN t.late THEN t.id END) AS "anyOf",
    (CASE WHEN t.any_of IS NULL THEN 1 ELSE (SELECT count(*) FROM flow g WHERE g.organisation = $1 AND g.target = t.target AND g.any_of = t.any_of) END
      + CASE WHEN t.late THEN 1 ELSE 0 END)::int AS among
  FROM (
    SELECT f.source AS lot, f.*, false AS late FROM f WHERE f.source NOT IN (SELECT id FROM vessel)
    UNION ALL SELECT f.source, f.*, EXISTS (${laterContentSql('f')}) FROM f WHERE ${ofVessel('f.source')}
    UNION ALL SELECT v.id, f.id, f.source, f.target, f.mg, f.pieces, f.how, f.type, f.certain, f.any_of, f.at, true
      FROM vessel v CROSS JOIN LATERAL (${takenLateSql('v.id')} OFFSET 0) f) t ORDER BY t.at, t.id`;

/** Where lots went and what is known to be left of them: a fixed number of queries, however many lots. */
export async function endsOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<Ends> {
  const values = [organisation, idsOf(lots)];
  const ask = async <T extends object>(name: string, text: string): Promise<readonly T[]> =>
    (await client.query<T>({ name: `ends: ${name}`, text, values })).rows;
  const departures = ask<DepartureRow>(
    'departures',
    `${ofLots(
      `t.id, t.lot, t.channel, t.customer, p.name AS "customerName", p.contact_name AS "contactName", p.phone, p.type AS "customerType",
      coalesce(p.vulnerable, false) AS vulnerable, t.pieces, t.mg, t.how, t.certain, t.any_of AS "anyOf",
       CASE WHEN t.any_of IS NULL THEN 1 ELSE (SELECT count(*) FROM departure g WHERE g.organisation = $1 AND g.trip = t.trip AND g.any_of = t.any_of) END::int AS among,
      t.unattended OR coalesce(p.unattended, false) AS unattended, t.decided, t.at, t.earliest, t.until, t.book`,
      'departure',
      'lot',
    )} LEFT JOIN LATERAL (SELECT * FROM party p WHERE p.organisation = $1 AND p.party = t.customer ORDER BY p.since DESC, p.seq DESC LIMIT 1) p ON true
     ORDER BY t.at, t.id`,
  );
  const returned = ask<ReturnedRow>(
    'returned',
    `${ofLots('t.id, t.lot, t.pieces, t.mg, t.how, t.disposition, t.site, t.at, d.channel, p.type AS "customerType"', 'returned', 'lot')}
     LEFT JOIN LATERAL (SELECT channel, customer FROM departure d WHERE d.organisation = $1 AND d.id = t.departure OFFSET 0) d ON true
     LEFT JOIN LATERAL (SELECT type FROM party p WHERE p.organisation = $1 AND p.party = ${either('d.customer', 't.customer')} ORDER BY p.since DESC, p.seq DESC LIMIT 1) p ON true
     ORDER BY t.at, t.id`,
  );
  const counts = ask<CountRow>(
    'counts',
    `${ofLots('t.id, t.lot, t.place, t.pieces, t.mg, t.site, t.at', 'counted', 'lot')}
     UNION ALL ${ofLots('t.id, t.make AS lot, NULL, NULL, t.mg, NULL, t.at', 'make_ended', 'make')} ORDER BY at, id`,
  );
  const carried = ask<CarriedRow>(
    'carried',
    `${ofLots('t.lot, t.to_place AS "toPlace", t.mg, t.pieces, t.at', 'moved', 'lot')} ORDER BY t.at, t.id`,
  );
  const counter = ask<CounterRow>(
    'counter',
    `${ofLots('t.id, t.lot, t.way, t.pieces, t.site, t.at, t.earliest, t.book', 'on_counter', 'lot')} ORDER BY t.at, t.seq`,
  );
  const uses = ask<UseRow>('uses', used);
  // Not waited for one by one: all go out in the same round trip.
  const all = await Promise.all([departures, returned, counts, counter, carried, uses]);
  return { departures: all[0], returned: all[1], counts: all[2], counter: all[3], carried: all[4], uses: all[5] };
}
