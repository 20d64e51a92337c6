import type { Row } from '@bakehouse/records';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

type Entry = TableRow<'entry'>;
interface Signed extends Pick<Row<'person'>, 'name'> {
  readonly person: NonNullable<Entry['signedBy']>;
  readonly at: NonNullable<Entry['signedAt']>;
  readonly meaning: NonNullable<Entry['signedAs']>;
}
export interface Approval {
  readonly signed: Computed<Signed | null>;
  readonly note: Maybe<TableRow<'entryWord'>>['text'];
}

/**
 * Who signed the entry that a row of `row` came from, as `signing.signed`, and the note that was written with it, as `signing.note`: parts of a
 * statement.
 */
export const approvalOf = (row: string): string => `
  LEFT JOIN LATERAL (
    SELECT CASE WHEN e.signed_by IS NULL THEN NULL ELSE json_build_object('person', e.signed_by, 'name', p.name,
        'at', to_char(e.signed_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'meaning', e.signed_as) END AS signed, w.text AS note
    FROM entry e
    LEFT JOIN person p ON p.organisation = e.organisation AND p.id = e.signed_by
    LEFT JOIN entry_word w ON w.organisation = e.organisation AND w.entry = e.id AND w.key = 'note'
    WHERE e.organisation = ${row}.organisation AND e.id = ${row}.id) signing ON true`;
