/**
 * Who signed the entry that a row of `row` came from, as `signing.signed`, and the note that was written with it, as `signing.note`: parts of a
 * statement. Null where the record's body was withheld since.
 */
export const approvalOf = (row: string): string => `
  LEFT JOIN LATERAL (
    SELECT CASE WHEN s.signature IS NULL THEN NULL ELSE json_build_object(
        'person', s.signature->>'person', 'name', p.name, 'at', s.signature->>'at', 'meaning', s.signature->>'meaning') END AS signed, w.text AS note
    FROM entry e
    LEFT JOIN entry_body b ON b.organisation = e.organisation AND b.book = e.book AND b.seq = e.seq
    CROSS JOIN LATERAL (SELECT convert_from(b.bytes, 'UTF8')::jsonb #> '{stamp,signature}' AS signature) s
    LEFT JOIN person p ON p.organisation = e.organisation AND p.id = (s.signature->>'person')::uuid
    LEFT JOIN entry_word w ON w.organisation = e.organisation AND w.entry = e.id AND w.key = 'note'
    WHERE e.organisation = ${row}.organisation AND e.id = ${row}.id) signing ON true`;

export interface Approval {
  readonly signed: { readonly person: string; readonly name: string | null; readonly at: string; readonly meaning: string } | null;
  readonly note: string | null;
}
