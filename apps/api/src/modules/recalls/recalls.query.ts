import type { Row } from '@bakehouse/records';
import type { ContactMade } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Case = Row<'recallCase'>;
export interface CaseRow extends Pick<Case, 'id' | 'suspect' | 'hazard' | 'hazardName' | 'practice' | 'frozenAt' | 'scopeHash'> {
  readonly openedAt: Case['at'];
  readonly said: Case['supplierSaid'];
  readonly closedAt: Maybe<Row<'recallClosed'>>['at'];
  readonly closedBy: Maybe<Row<'person'>>['name'];
  readonly whyOnHold: Maybe<Row<'recallClosed'>>['why'];
  readonly notTold: Maybe<Row<'recallClosed'>>['notTold'];
  readonly whyAuthorityNotTold: Maybe<Row<'recallClosed'>>['whyAuthorityNotTold'];
  readonly whyNoNotice: Maybe<Row<'recallClosed'>>['whyNoNotice'];
  readonly notReached: Maybe<Row<'recallClosed'>>['notReached'];
  readonly whyNotReached: Maybe<Row<'recallClosed'>>['whyNotReached'];
  readonly conclusion: Maybe<TableRow<'entryWord'>>['text'];
  readonly lots: Computed<number>;
}
interface CallRow extends Pick<Row<'recallContact'>, 'party' | 'answer' | 'piecesHeld' | 'at'> {
  readonly said: Maybe<TableRow<'entryWord'>>['text'];
}
interface NotifiedRow extends Pick<Row<'recallNotified'>, 'id' | 'to' | 'how' | 'at'> {
  readonly by: Maybe<Row<'person'>>['name'];
  readonly reference: Maybe<TableRow<'entryWord'>>['text'];
  readonly spokeTo: Maybe<TableRow<'entryWord'>>['text'];
  readonly said: Maybe<TableRow<'entryWord'>>['text'];
}
type ScopeRow = Pick<Row<'recallScopeLot'>, 'lot' | 'begins'>;
type DecisionRow = Pick<Row<'recallDecision'>, 'lot' | 'decision' | 'covers' | 'pieces' | 'mg' | 'at'>;

const cases = `SELECT c.id, c.at AS "openedAt", c.suspect, c.hazard, c.hazard_name AS "hazardName", c.practice, c.supplier_said AS said, c.frozen_at AS "frozenAt", c.scope_hash AS "scopeHash",
    x.at AS "closedAt", p.name AS "closedBy", x.why AS "whyOnHold", x.not_told AS "notTold",
    x.why_authority_not_told AS "whyAuthorityNotTold", x.why_no_notice AS "whyNoNotice", x.not_reached AS "notReached", x.why_not_reached AS "whyNotReached", w.text AS conclusion,
    (SELECT count(*) FROM recall_scope_lot s WHERE s.organisation = c.organisation AND s.recall = c.id) AS lots
  FROM recall_case c
  LEFT JOIN LATERAL (SELECT * FROM recall_closed x WHERE x.organisation = c.organisation AND x.recall = c.id ORDER BY x.at, x.seq LIMIT 1) x ON true
  LEFT JOIN entry_word w ON w.organisation = c.organisation AND w.entry = x.entry AND w.key = 'conclusion'
  LEFT JOIN person p ON p.organisation = c.organisation AND p.id = x.closed_by
  WHERE c.organisation = $1`;

/** All cases, open ones first, then the latest. */
export async function allCases(client: ClientBase, organisation: string): Promise<readonly CaseRow[]> {
  const { rows } = await client.query<CaseRow>(`SELECT * FROM (${cases}) c ORDER BY ("closedAt" IS NOT NULL), "openedAt" DESC, id`, [
    organisation,
  ]);
  return rows;
}

export async function oneCase(client: ClientBase, organisation: string, id: string): Promise<CaseRow | undefined> {
  const { rows } = await client.query<CaseRow>(`${cases} AND c.id = $2`, [organisation, id]);
  return rows[0];
}

/** The lots of the frozen scope, each with whether the case begins there. */
export async function scopeOfCase(client: ClientBase, organisation: string, id: string): Promise<readonly ScopeRow[]> {
  const { rows } = await client.query<ScopeRow>(
    'SELECT lot, begins FROM recall_scope_lot WHERE organisation = $1 AND recall = $2 ORDER BY lot',
    [organisation, id],
  );
  return rows;
}

/** The calls of a case with what was written down of each, in order. */
export async function callsOfCase(client: ClientBase, organisation: string, id: string): Promise<readonly ContactMade[]> {
  const { rows } = await client.query<CallRow>(
    `SELECT k.party, k.answer, k.pieces_held AS "piecesHeld", w.text AS said, k.at FROM recall_contact k
     LEFT JOIN entry_word w ON w.organisation = k.organisation AND w.entry = k.entry AND w.key = 'said'
     WHERE k.organisation = $1 AND k.recall = $2 ORDER BY k.at`,
    [organisation, id],
  );
  return rows;
}

const wordOf = (key: string): string =>
  `(SELECT w.text FROM entry_word w WHERE w.organisation = $1 AND w.entry = n.entry AND w.key = '${key}')`;

/** When the authority was told of a case and the public, in order, with what was written down of it. */
export async function notifiedInCaseOf(client: ClientBase, organisation: string, id: string): Promise<readonly NotifiedRow[]> {
  const { rows } = await client.query<NotifiedRow>(
    `SELECT n.id, n."to", n.how, n.at, p.name AS by, ${wordOf('reference')} AS reference, ${wordOf('spokeTo')} AS "spokeTo", ${wordOf('said')} AS said
     FROM recall_notified n LEFT JOIN person p ON p.organisation = $1 AND p.id = n.done_by
     WHERE n.organisation = $1 AND n.recall = $2 ORDER BY n.at, n.seq`,
    [organisation, id],
  );
  return rows;
}

/** What was decided in a case about the lots that it held, in order. */
export async function decisionsOfCase(client: ClientBase, organisation: string, id: string): Promise<readonly DecisionRow[]> {
  const { rows } = await client.query<DecisionRow>(
    'SELECT lot, decision, covers, pieces, mg, at FROM recall_decision WHERE organisation = $1 AND recall = $2 ORDER BY at, seq',
    [organisation, id],
  );
  return rows;
}
