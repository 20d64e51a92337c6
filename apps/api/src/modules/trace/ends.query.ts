import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Departed = TableRow<'departure'>;
type Party = Row<'party'>;
export interface DepartureRow
  extends
    Pick<Departed, 'id' | 'lot' | 'channel' | 'customer' | 'pieces' | 'mg' | 'how' | 'certain' | 'anyOf' | 'at' | 'until' | 'book'>,
    Maybe<Pick<Party, 'contactName' | 'phone'>> {
  readonly customerName: Maybe<Party>['name'];
  readonly customerType: Maybe<Party>['type'];
  readonly among: Computed<number>;
  readonly vulnerable: Computed<boolean>;
  readonly unattended: Computed<boolean>;
}
export type ReturnedRow = Pick<Row<'returned'>, 'lot' | 'departure' | 'customer' | 'pieces' | 'mg' | 'disposition' | 'at'>;
export type CountRow = Pick<Row<'counted'>, 'lot' | 'pieces' | 'mg' | 'at'>;
export type CounterRow = Pick<TableRow<'onCounter'>, 'lot' | 'way' | 'pieces' | 'at' | 'book'>;
export interface UseRow extends Pick<Row<'flow'>, 'target' | 'pieces' | 'mg' | 'how' | 'type' | 'certain' | 'anyOf' | 'at'> {
  readonly among: Computed<number>;
  readonly lot: Row<'flow'>['source'];
  readonly targetName: Computed<Row<'lot'>['name']>;
}
export interface RejectRow extends Pick<Row<'batch'>, 'rejects'> {
  readonly lot: Row<'batch'>['id'];
}

export interface Ends {
  readonly departures: readonly DepartureRow[];
  readonly returned: readonly ReturnedRow[];
  readonly counts: readonly CountRow[];
  readonly counter: readonly CounterRow[];
  readonly uses: readonly UseRow[];
  readonly rejects: readonly RejectRow[];
}

/** Where lots went and what is known to be left of them: a fixed number of queries, however many lots. */
export async function endsOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<Ends> {
  const ask = async <T extends object>(text: string): Promise<readonly T[]> => (await client.query<T>(text, [organisation, lots])).rows;
  const departures = await ask<DepartureRow>(
    `SELECT d.id, d.lot, d.channel, d.customer, p.name AS "customerName", p.contact_name AS "contactName", p.phone, p.type AS "customerType", coalesce(p.vulnerable, false) AS vulnerable,
            d.pieces, d.mg, d.how, d.certain, d.any_of AS "anyOf", CASE WHEN d.any_of IS NULL THEN 1 ELSE (SELECT count(*) FROM departure g WHERE g.organisation = d.organisation AND g.trip = d.trip AND g.any_of = d.any_of) END::int AS among,
            d.unattended OR coalesce(p.unattended, false) AS unattended, d.at, d.until, d.book
     FROM departure d
     LEFT JOIN LATERAL (SELECT * FROM party p WHERE p.organisation = d.organisation AND p.party = d.customer ORDER BY p.since DESC, p.seq DESC LIMIT 1) p ON true
     WHERE d.organisation = $1 AND d.lot = ANY($2) ORDER BY d.at, d.id`,
  );
  const returned = await ask<ReturnedRow>(
    'SELECT lot, departure, customer, pieces, mg, disposition, at FROM returned WHERE organisation = $1 AND lot = ANY($2) ORDER BY at',
  );
  const counts = await ask<CountRow>(
    'SELECT DISTINCT ON (lot) lot, pieces, mg, at FROM counted WHERE organisation = $1 AND lot = ANY($2) ORDER BY lot, at DESC, seq DESC',
  );
  const counter = await ask<CounterRow>(
    'SELECT lot, way, pieces, at, book FROM on_counter WHERE organisation = $1 AND lot = ANY($2) ORDER BY at, seq',
  );
  const uses = await ask<UseRow>(
    `SELECT f.source AS lot, f.target, coalesce(l.name, '') AS "targetName", f.pieces, f.mg, f.how, f.type, f.certain, f.at, f.any_of AS "anyOf",
            CASE WHEN f.any_of IS NULL THEN 1 ELSE (SELECT count(*) FROM flow g WHERE g.organisation = f.organisation AND g.target = f.target AND g.any_of = f.any_of) END::int AS among
     FROM flow f LEFT JOIN lot l ON l.organisation = f.organisation AND l.id = f.target WHERE f.organisation = $1 AND f.source = ANY($2) ORDER BY f.at, f.id`,
  );
  const rejects = await ask<RejectRow>('SELECT id AS lot, rejects FROM batch WHERE organisation = $1 AND id = ANY($2)');
  return { departures, returned, counts, counter, uses, rejects };
}
