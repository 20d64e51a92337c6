import type { InspectedRecall } from '@bakehouse/contracts';
import { informedBy, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import type { BookInfo, BookRef } from '../../platform/ledger/index.js';
import { everAtSiteSql, toReach } from '../standing/index.js';
import type { Period } from './period.js';

type Case = Row<'recallCase'>;
type Lot = Pick<Row<'lot'>, 'name' | 'code'>;
interface CaseRow extends Pick<Case, 'id' | 'practice' | 'hazard' | 'hazardName' | 'suspect'> {
  readonly openedAt: Case['at'];
  readonly openedBy: Maybe<Row<'person'>>['name'];
  readonly said: Case['supplierSaid'];
  readonly closedAt: Maybe<Row<'recallClosed'>>['at'];
  readonly closedBy: Maybe<Row<'person'>>['name'];
  readonly whyOnHold: Maybe<Row<'recallClosed'>>['why'];
  readonly notTold: Maybe<Row<'recallClosed'>>['notTold'];
  readonly whyAuthorityNotTold: Maybe<Row<'recallClosed'>>['whyAuthorityNotTold'];
  readonly whyNoNotice: Maybe<Row<'recallClosed'>>['whyNoNotice'];
  readonly notReached: Maybe<Row<'recallClosed'>>['notReached'];
  readonly whyNotReached: Maybe<Row<'recallClosed'>>['whyNotReached'];
  readonly lots: Computed<number>;
  readonly lotsHere: Computed<number>;
  readonly calls: Computed<readonly Pick<Row<'recallContact'>, 'party' | 'answer'>[]>;
}
interface DecisionRow extends Lot, Pick<Row<'recallDecision'>, 'recall' | 'lot' | 'decision' | 'pieces' | 'mg' | 'at'> {
  readonly by: Maybe<Row<'person'>>['name'];
}
interface NotifiedRow extends Pick<Row<'recallNotified'>, 'recall' | 'id' | 'to' | 'how' | 'at'> {
  readonly by: Maybe<Row<'person'>>['name'];
  readonly reference: Maybe<TableRow<'entryWord'>>['text'];
}
interface SuspectRow extends Lot {
  readonly lot: Row<'lot'>['id'];
}

const scope = 'recall_scope_lot s WHERE s.organisation = $1 AND s.recall = c.id';
const wasHere = everAtSiteSql('l', '$2');
const isHere = `EXISTS (SELECT FROM lot l WHERE l.organisation = $1 AND l.id = s.lot AND ${wasHere})`;

/** The cases that were open at some time of the period and whose scope has lots that were ever at the site, the first opened first. */
async function casesOf(client: ClientBase, { organisation, id }: BookInfo, { begins, ends }: Period): Promise<readonly CaseRow[]> {
  const { rows } = await client.query<CaseRow>(
    `SELECT c.id, c.practice, c.hazard, c.hazard_name AS "hazardName", c.suspect, c.at AS "openedAt", o.name AS "openedBy", c.supplier_said AS said,
       x.at AS "closedAt", p.name AS "closedBy", x.why AS "whyOnHold",
       x.not_told AS "notTold", x.why_authority_not_told AS "whyAuthorityNotTold", x.why_no_notice AS "whyNoNotice", x.not_reached AS "notReached", x.why_not_reached AS "whyNotReached",
       (SELECT count(*)::int FROM ${scope}) AS lots, (SELECT count(*)::int FROM ${scope} AND ${isHere}) AS "lotsHere",
       (SELECT coalesce(json_agg(json_build_object('party', r.party, 'answer', r.answer)), '[]') FROM recall_contact r WHERE r.organisation = $1 AND r.recall = c.id) AS calls
     FROM recall_case c
     LEFT JOIN LATERAL (SELECT * FROM recall_closed x WHERE x.organisation = $1 AND x.recall = c.id ORDER BY x.at, x.seq LIMIT 1) x ON true
     LEFT JOIN person p ON p.organisation = $1 AND p.id = x.closed_by
     LEFT JOIN entry e ON e.organisation = $1 AND e.id = c.entry LEFT JOIN person o ON o.organisation = $1 AND o.id = e.person
     WHERE c.organisation = $1 AND c.at < $4 AND (x.at IS NULL OR x.at >= $3) AND EXISTS (SELECT FROM ${scope} AND ${isHere})
     ORDER BY c.at, c.id`,
    [organisation, id, begins, ends],
  );
  return rows;
}

/** The recalls of a period, with whom they were told to outside, and what was decided about lots that were ever at the site. */
export async function recallsOf(client: ClientBase, books: readonly BookRef[], site: BookInfo, period: Period): Promise<InspectedRecall[]> {
  const cases = await casesOf(client, site, period);
  if (cases.length === 0) return [];
  const { rows: decisions } = await client.query<DecisionRow>(
    `SELECT d.recall, d.lot, l.name, l.code, d.decision, d.pieces, d.mg, d.at, o.name AS by FROM recall_decision d
     JOIN lot l ON l.organisation = $1 AND l.id = d.lot AND ${wasHere}
     LEFT JOIN entry e ON e.organisation = $1 AND e.id = d.entry LEFT JOIN person o ON o.organisation = $1 AND o.id = e.person
     WHERE d.organisation = $1 AND d.recall = ANY($3) ORDER BY d.at, d.seq`,
    [site.organisation, site.id, cases.map((c) => c.id)],
  );
  const { rows: suspects } = await client.query<SuspectRow>(
    `SELECT l.id AS lot, l.name, l.code FROM lot l WHERE l.organisation = $1 AND l.id = ANY($3) AND ${wasHere} ORDER BY l.name, l.code, l.id`,
    [site.organisation, site.id, cases.flatMap((c) => c.suspect)],
  );
  const { rows: notified } = await client.query<NotifiedRow>(
    `SELECT n.recall, n.id, n."to", n.how, n.at, p.name AS by, w.text AS reference FROM recall_notified n
     LEFT JOIN person p ON p.organisation = $1 AND p.id = n.done_by
     LEFT JOIN entry_word w ON w.organisation = $1 AND w.entry = n.entry AND w.key = 'reference'
     WHERE n.organisation = $1 AND n.recall = ANY($2) ORDER BY n.at, n.seq`,
    [site.organisation, cases.map((c) => c.id)],
  );
  const left = await toReach(
    client,
    books,
    site.organisation,
    cases.map((c) => c.id),
  );
  return cases.map(({ suspect, calls, notTold, whyAuthorityNotTold, whyNoNotice, notReached, whyNotReached, ...c }) => ({
    ...c,
    closedOver: notTold === null ? null : { notTold, whyAuthorityNotTold, whyNoNotice, whyNotReached, notReached: notReached?.length ?? 0 },
    calls: calls.length,
    informed: informedBy(calls).size,
    toReach: left.get(c.id) ?? 0,
    suspects: suspects.filter((s) => suspect.includes(s.lot)),
    notified: notified.filter((n) => n.recall === c.id).map(({ recall: _, ...n }) => n),
    decisions: decisions.filter((d) => d.recall === c.id).map(({ recall: _, ...d }) => d),
  }));
}
