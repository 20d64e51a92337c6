import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Case = Row<'recallCase'>;
interface Call extends Pick<Row<'recallContact'>, 'party' | 'answer' | 'piecesHeld' | 'at'> {
  readonly said: Maybe<TableRow<'entryWord'>>['text'];
}
interface CaseRow extends Pick<Case, 'id' | 'hazard' | 'hazardName' | 'practice'> {
  readonly openedAt: Case['at'];
  readonly closedAt: Maybe<Row<'recallClosed'>>['at'];
  readonly calls: Computed<readonly Call[]>;
}

/** The cases whose frozen scope, or what was taken into it since, has a lot, the latest first, each with the calls made in it. */
export async function casesWith(client: ClientBase, organisation: string, lot: string): Promise<readonly CaseRow[]> {
  const { rows } = await client.query<CaseRow>({
    name: 'cases of a lot',
    text: `SELECT c.id, c.hazard, c.hazard_name AS "hazardName", c.practice, c.at AS "openedAt", x.at AS "closedAt",
      (SELECT coalesce(json_agg(json_build_object('party', k.party, 'answer', k.answer, 'piecesHeld', k.pieces_held, 'said', w.text,
         'at', to_char(k.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')) ORDER BY k.at), '[]')
       FROM recall_contact k LEFT JOIN entry_word w ON w.organisation = $1 AND w.entry = k.entry AND w.key = 'said'
       WHERE k.organisation = $1 AND k.recall = c.id) AS calls
     FROM (SELECT DISTINCT recall FROM recall_scope_lot WHERE organisation = $1 AND lot = $2 OFFSET 0) s
     CROSS JOIN LATERAL (SELECT * FROM recall_case WHERE organisation = $1 AND id = s.recall OFFSET 0) c
     LEFT JOIN LATERAL (SELECT at FROM recall_closed x WHERE x.organisation = $1 AND x.recall = c.id ORDER BY x.at, x.seq LIMIT 1) x ON true
     ORDER BY c.at DESC, c.id`,
    values: [organisation, lot],
  });
  return rows;
}
