import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Lot = TableRow<'lot'>;
type Party = Maybe<Row<'party'>>;
export interface LotDetail
  extends Pick<Lot, 'id' | 'bestBefore' | 'useBy'>, Maybe<Pick<Row<'batch'>, 'bakedOn'>>, Maybe<Pick<Row<'delivery'>, 'note'>> {
  readonly asWritten: Lot['quantityAsWritten'];
  readonly supplier: Party['name'];
  readonly supplierPhone: Party['phone'];
  readonly supplierAddress: Party['address'];
}
export type FlowRow = Pick<TableRow<'flow'>, 'source' | 'target' | 'mg' | 'pieces' | 'how' | 'type' | 'certain' | 'at' | 'entry'>;
export interface DepartureRow
  extends
    Pick<
      TableRow<'departure'>,
      'id' | 'lot' | 'channel' | 'mg' | 'pieces' | 'how' | 'certain' | 'anyOf' | 'unattended' | 'decided' | 'at' | 'until' | 'entry'
    >,
    Pick<Party, 'address'> {
  readonly customer: Party['name'];
  readonly among: Computed<number>;
  /** It only went to a shop of the house. */
  readonly toShop: Computed<boolean>;
  readonly backPieces: Computed<Row<'returned'>['pieces']>;
  readonly backMg: Computed<Row<'returned'>['mg']>;
}
export interface CaseHead {
  readonly business: TableRow<'organisation'>['name'];
  readonly openedBy: Maybe<Row<'person'>>['name'];
}

/** Whose business it is, and who opened the case. */
export async function headOfCase(client: ClientBase, organisation: string, recall: string): Promise<CaseHead | undefined> {
  const { rows } = await client.query<CaseHead>(
    `SELECT o.name AS business, p.name AS "openedBy" FROM organisation o
     LEFT JOIN entry e ON e.organisation = o.id AND e.id = $2
     LEFT JOIN person p ON p.organisation = o.id AND p.id = e.person
     WHERE o.id = $1`,
    [organisation, recall],
  );
  return rows[0];
}

const latestParty = (id: string): string =>
  `LATERAL (SELECT p.name, p.phone, p.address, p.type FROM party p WHERE p.organisation = $1 AND p.party = ${id} ORDER BY p.since DESC, p.seq DESC LIMIT 1)`;

/** What a pack or a paper says of each lot beside its name: dates, delivery note, supplier. */
export async function lotDetails(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly LotDetail[]> {
  const { rows } = await client.query<LotDetail>(
    `SELECT l.id, l.best_before AS "bestBefore", l.use_by AS "useBy", l.quantity_as_written AS "asWritten", b.baked_on AS "bakedOn", d.note,
       p.name AS supplier, p.phone AS "supplierPhone", p.address AS "supplierAddress"
     FROM lot l LEFT JOIN batch b ON b.organisation = $1 AND b.id = l.id LEFT JOIN delivery d ON d.organisation = $1 AND d.id = l.delivery
     LEFT JOIN ${latestParty('l.supplier')} p ON true
     WHERE l.organisation = $1 AND l.id = ANY($2)`,
    [organisation, lots],
  );
  return rows;
}

/** What of these lots went into which of them. */
export async function flowsWithin(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly FlowRow[]> {
  const { rows } = await client.query<FlowRow>(
    `SELECT source, target, mg, pieces, how, type, certain, at, entry FROM flow WHERE organisation = $1 AND source = ANY($2) AND target = ANY($2) ORDER BY at, id`,
    [organisation, lots],
  );
  return rows;
}

/** Everything of these lots that left, to whom and where, and what came back of it. */
export async function departuresOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly DepartureRow[]> {
  const { rows } = await client.query<DepartureRow>(
    `SELECT d.id, d.lot, d.channel, p.name AS customer, p.address, (d.channel = 'own-shop' OR coalesce(p.type = 'own-shop', false)) AS "toShop", d.mg, d.pieces, d.how, d.certain, d.any_of AS "anyOf",
       CASE WHEN d.any_of IS NULL THEN 1 ELSE (SELECT count(*) FROM departure g WHERE g.organisation = $1 AND g.trip = d.trip AND g.any_of = d.any_of) END::int AS among,
       d.unattended, d.decided, d.at, d.until, d.entry,
       c.pieces AS "backPieces", c.mg AS "backMg"
     FROM departure d LEFT JOIN ${latestParty('d.customer')} p ON true
     LEFT JOIN LATERAL (SELECT sum(c.pieces) AS pieces, sum(c.mg)::bigint AS mg FROM returned c WHERE c.organisation = $1 AND c.departure = d.id) c ON true
     WHERE d.organisation = $1 AND d.lot = ANY($2) ORDER BY d.at, d.id`,
    [organisation, lots],
  );
  return rows;
}
