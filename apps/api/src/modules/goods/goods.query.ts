import type { Deliveries, OpenThings } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Holds, Maybe, TableRow } from '../../platform/database/index.js';
import { codeNow, unnamedAtFirst, type BookRef } from '../../platform/ledger/index.js';

type Shown = Deliveries[number]['lines'][number];
type Temperature = NonNullable<Shown['temperature']>;
type Read = Pick<Row<'reading'>, 'figure' | 'unit' | 'measured' | 'verdict' | 'corrected' | 'instrument' | 'class'>;
/** What was measured last, whether or not it can be trusted. */
export type Measured = Omit<Temperature, 'doubt'> & Pick<Row<'reading'>, 'id' | 'instrument' | 'class' | 'unit' | 'at'>;
type Line = Omit<Shown, 'concerns' | 'temperature'> & { readonly temperature: Measured | null };
export type DeliveriesFound = readonly (Omit<Deliveries[number], 'lines'> & { readonly lines: readonly Line[] })[];
interface DeliveryRow extends Pick<Row<'delivery'>, 'id' | 'receivedAt' | 'note' | 'unattended' | 'photo'> {
  readonly supplierName: Maybe<Row<'party'>>['name'];
  readonly by: Maybe<Row<'person'>>['name'];
}
interface LineRow
  extends
    Pick<Row<'lot'>, 'delivery' | 'name' | 'codeState' | 'mg' | 'pieces' | 'bestBefore' | 'useBy'>,
    Maybe<Read>,
    Maybe<Pick<Row<'receiptDecision'>, 'decision' | 'condition'>> {
  readonly lot: Row<'lot'>['id'];
  readonly asWritten: Row<'lot'>['quantityAsWritten'];
  readonly reading: Maybe<Row<'reading'>>['id'];
  readonly readAt: Maybe<Row<'reading'>>['at'];
  readonly limit: Maybe<Row<'reading'>>['judgedBy'];
  readonly decidedAt: Maybe<Row<'receiptDecision'>>['at'];
  readonly code: Computed<Row<'lot'>['code']>;
  readonly named: Computed<boolean>;
  readonly used: Computed<boolean>;
}
interface NotIdentifiedRow extends Pick<Row<'lot'>, 'name' | 'at'> {
  readonly lot: Row<'lot'>['id'];
  readonly used: Computed<boolean>;
}
type SetAside = TableRow<'setAside'>;
interface SetAsideRow extends Pick<SetAside, 'id' | 'problem' | 'field'> {
  readonly as: Holds<SetAside['as'], OpenThings['setAside'][number]['as']>;
  readonly kind: Computed<string | null>;
  readonly personName: Maybe<Row<'person'>>['name'];
  readonly at: SetAside['receivedAt'];
}

/** Deliveries of a site between two instants, the newest first, each line with how it stands now: two reads, however many. */
export async function deliveriesBetween(
  client: ClientBase,
  { organisation, id }: BookRef,
  from: string,
  until: string,
): Promise<DeliveriesFound> {
  const { rows } = await client.query<DeliveryRow>(
    `SELECT d.id, d.received_at AS "receivedAt", p.name AS "supplierName", d.note, d.unattended, d.photo, n.name AS by FROM delivery d
     LEFT JOIN LATERAL (SELECT name FROM party p WHERE p.organisation = d.organisation AND p.party = d.supplier ORDER BY p.since DESC, p.seq DESC LIMIT 1) p ON true
     LEFT JOIN entry e ON e.organisation = d.organisation AND e.id = d.entry LEFT JOIN person n ON n.organisation = d.organisation AND n.id = e.person
     WHERE d.organisation = $1 AND d.book = $2 AND d.received_at >= $3 AND d.received_at < $4 ORDER BY d.received_at DESC, d.id`,
    [organisation, id, from, until],
  );
  const { rows: lines } = await client.query<LineRow>(
    `SELECT l.delivery, l.id AS lot, l.name, coalesce(l.code, i.code) AS code, l.code_state AS "codeState", i.lot IS NOT NULL AS named, l.mg, l.pieces, l.quantity_as_written AS "asWritten",
            l.best_before AS "bestBefore", l.use_by AS "useBy", r.id AS reading, r.figure, r.unit, r.measured, r.verdict, r.corrected, r.instrument, r.class, r.judged_by AS limit,
            r.at AS "readAt", c.decision, c.condition, c.at AS "decidedAt",
            (SELECT true FROM flow f WHERE f.organisation = l.organisation AND f.source = l.id LIMIT 1) IS NOT NULL AS used
     FROM lot l
     LEFT JOIN LATERAL (SELECT i.lot, coalesce(i.code, s.code) AS code FROM lot_identified i LEFT JOIN lot s ON s.organisation = i.organisation AND s.id = i.same
                        WHERE i.organisation = l.organisation AND i.lot = l.id ORDER BY i.seq DESC LIMIT 1) i ON true
     LEFT JOIN LATERAL (SELECT id, figure, unit, measured, verdict, corrected, instrument, class, judged_by, at FROM reading r WHERE r.organisation = l.organisation AND r.subject = l.id ORDER BY r.at DESC, r.seq DESC LIMIT 1) r ON true
     LEFT JOIN LATERAL (SELECT decision, condition, at FROM receipt_decision c WHERE c.organisation = l.organisation AND c.lot = l.id ORDER BY c.seq DESC LIMIT 1) c ON true
     WHERE l.organisation = $1 AND l.delivery = ANY($2) AND l.type <> 'withdrawn' ORDER BY l.name, l.id`,
    [organisation, rows.map((r) => r.id)],
  );
  return rows.map((row) => ({ ...row, lines: lines.filter((l) => l.delivery === row.id).map(lineOf) }));
}

function lineOf(row: LineRow): Line {
  const { delivery: _, reading, figure, unit, measured, verdict, corrected, instrument, class: of, limit, readAt, ...rest } = row;
  const { decision, condition, decidedAt, ...line } = rest;
  return {
    ...line,
    temperature:
      reading === null || measured === null || verdict === null || corrected === null || readAt === null
        ? null
        : { id: reading, figure, unit, measured, verdict, corrected, instrument, class: of, limit, at: readAt },
    decision: decision === null || decidedAt === null ? null : { decision, condition, at: decidedAt },
  };
}

/**
 * Lots not identified, those too whose code was found and that may be more than one lot by it, and entries set aside in the last 30 days. A release that
 * was refused is none any more once that batch was released: its readings came later. */
export async function openAtSite(
  client: ClientBase,
  { organisation, id }: BookRef,
  now: string,
): Promise<Pick<OpenThings, 'notIdentified' | 'setAside'>> {
  const { rows: notIdentified } = await client.query<NotIdentifiedRow>(
    `SELECT l.id AS lot, l.name, l.at, (SELECT true FROM flow f WHERE f.organisation = l.organisation AND f.source = l.id LIMIT 1) IS NOT NULL AS used
     FROM (SELECT * FROM lot WHERE organisation = $1 AND type = 'placeholder' OFFSET 0) l
     LEFT JOIN LATERAL (SELECT bool_or(i.same IS NOT NULL) AS told, count(*) AS times, max(lot_code_key(i.code)) AS key FROM lot_identified i
       WHERE i.organisation = l.organisation AND i.lot = l.id) n ON true
     WHERE l.book = $2 AND n.told IS NOT TRUE AND (n.times = 0 OR l.delivery IS NULL AND EXISTS (
       SELECT FROM lot s WHERE s.organisation = l.organisation AND s.material = l.material AND s.at <= l.at AND s.type <> 'withdrawn'
         AND NOT ${unnamedAtFirst('s')} AND n.key = lot_code_key(${codeNow('s')})))
     ORDER BY l.at DESC, l.id LIMIT 200`,
    [organisation, id],
  );
  const { rows: setAside } = await client.query<SetAsideRow>(
    `SELECT * FROM (
       SELECT DISTINCT ON (coalesce(k.entry, k.id)) k.id, k.as, k.body->'entry'->>'kind' AS kind, k.problem, k.field, p.name AS "personName", k.received_at AS at FROM set_aside k
       LEFT JOIN person p ON p.organisation = k.organisation AND p.id = k.person
       WHERE k.organisation = $1 AND k.book = $2 AND k.received_at > $3::timestamptz - interval '30 days'
         AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.organisation = k.organisation AND e.id = k.entry)
         AND NOT CASE WHEN k.problem = 'not-releasable' THEN EXISTS (
           SELECT FROM release r WHERE r.organisation = k.organisation AND r.batch = (k.body->'entry'->'payload'->>'batch')::uuid) ELSE false END
       ORDER BY coalesce(k.entry, k.id), k.received_at DESC) x
     ORDER BY at DESC LIMIT 100`,
    [organisation, id, now],
  );
  return { notIdentified, setAside };
}
