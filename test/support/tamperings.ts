import type { Client } from 'pg';
import { cut, rewrite, type SoundHouse } from './tampered-house.js';

export type Tamper = (owner: Client, h: SoundHouse) => Promise<unknown>;
/** What is done, how a verification ends (1 to be put right while the entries stand, 2 evidence was changed), and what it says; and how it is done. */
export type Tampering = readonly [what: string, code: 1 | 2, found: RegExp, tamper: Tamper];

/** Statements with the ids of the house in them. */
export const sql =
  (text: (h: SoundHouse) => string): Tamper =>
  (owner, h) =>
    owner.query(text(h));
export const place = (h: SoundHouse, entry: string): string => `book = '${h.site}' AND seq = (SELECT seq FROM entry WHERE id = '${entry}')`;
const seals = (change: (h: SoundHouse) => string): Tamper => sql((h) => `UPDATE seal SET ${change(h)} WHERE book = '${h.site}'`);

export const entries: readonly Tampering[] = [
  ['one byte of a body', 2, /edited +entry .*its bytes do not give its leaf/, sql((h) => `UPDATE entry_body SET bytes = set_byte(bytes, 40, get_byte(bytes, 40) # 1) WHERE ${place(h, h.early)}`)],
  ['a body that is no content, with a leaf that fits', 2, /unreadable +entry .*no content of an entry/, sql((h) => `UPDATE entry_body SET bytes = 'x' WHERE ${place(h, h.early)}; UPDATE entry SET leaf = sha256('\\x0078') WHERE id = '${h.early}'`)],
  ['a body written anew, all made to fit but the seal’s signature', 2, /seal-forged: the seal over \d+ entries: its note says another root/, (owner, h) => rewrite(owner, h.site, h.early, '"25"', '"26"')],
  ['a body after the first seal written anew', 2, /seal-differs +number \d+: the first \d+ entries are not those that were sealed; the first \d+ are/, (owner, h) => rewrite(owner, h.site, h.outside, '"40"', '"26"')],
  ['an entry in the middle taken out', 2, /missing +number \d+: nothing stands/, sql((h) => `DELETE FROM entry_body WHERE ${place(h, h.early)}; DELETE FROM entry WHERE id = '${h.early}'`)],
  ['the end cut off past a seal, and the head set back to fit', 2, /cut-back: a seal was made over \d+ entries, and \d+ are there/, (owner, h) => cut(owner, h.site, h.firstSeal + 1)],
  ['two bodies that changed places', 2, /reordered +entry .*its bytes say that it is number/, sql((h) => `CREATE TEMP TABLE b AS SELECT * FROM entry_body WHERE book = '${h.site}' AND seq IN (2, 3); CREATE TEMP TABLE e AS SELECT * FROM entry WHERE book = '${h.site}' AND seq IN (2, 3);
     UPDATE entry_body t SET bytes = b.bytes FROM b WHERE t.book = b.book AND t.seq = 5 - b.seq; UPDATE entry t SET leaf = e.leaf FROM e WHERE t.book = e.book AND t.seq = 5 - e.seq`)],
  ['who recorded it', 2, /edited +entry .*what stands beside its bytes/, sql((h) => `UPDATE entry SET person = gen_random_uuid() WHERE id = '${h.early}'`)],
  ['when it was received', 2, /edited +entry .*what stands beside its bytes/, sql((h) => `UPDATE entry SET recorded_at = recorded_at - interval '1 hour' WHERE id = '${h.early}'`)],
  ['the hash by which a second sending is known', 2, /edited +entry .*hash of its input/, sql((h) => `UPDATE entry SET input_hash = sha256('x') WHERE id = '${h.early}'`)],
  ['a body taken away, and its deviation out of the rows', 2, /body-removed +entry .*no record says that it was withheld/, sql((h) => `DELETE FROM entry_body WHERE ${place(h, h.outside)}; DELETE FROM deviation WHERE entry = '${h.outside}'; DELETE FROM reading WHERE entry = '${h.outside}'`)],
  ['a head set back to before a seal', 2, /head-differs +number 3: its head says 3 entries/, sql((h) => `UPDATE book SET size = 3, frontier = ARRAY[frontier[1], frontier[1]] WHERE id = '${h.site}'`)],
  ['the tree at the head', 2, /tree-differs: the tree at its head cannot be read/, sql((h) => `UPDATE book SET frontier = '{}' WHERE id = '${h.site}'`)],
  ['when the last entry came', 2, /head-differs: its head says that the last entry came/, sql((h) => `UPDATE book SET last_at = last_at + interval '1 day' WHERE id = '${h.site}'`)],
  ['the zone of a book', 2, /head-differs: its zone is Asia\/Tokyo, and entries say Europe\/London/, sql((h) => `UPDATE book SET zone = 'Asia/Tokyo' WHERE id = '${h.site}'`)],
  ['a book with everything in it', 2, /book-gone: [0-9a-f-]{36}: \d+ of lot belong to it/, (owner, h) => cut(owner, h.site, 0).then(() => owner.query(`DELETE FROM seal WHERE book = '${h.site}'; DELETE FROM book WHERE id = '${h.site}'`))],
]; // prettier-ignore

export const besideThem: readonly Tampering[] = [
  ['a text', 2, /word-edited +entry .*not the one that was committed to/, sql((h) => `UPDATE entry_word SET text = 'by machine' WHERE entry = '${h.noted}'`)],
  ['the salt of a text', 2, /word-edited +entry .*not the one that was committed to/, sql((h) => `UPDATE entry_word SET salt = 'x' WHERE entry = '${h.noted}'`)],
  ['a text that was taken away', 1, /word-gone +entry .*the text of "note" is gone/, sql((h) => `DELETE FROM entry_word WHERE entry = '${h.noted}'`)],
  ['a text that was put beside an entry', 2, /word-edited +entry .*the text of "reason"/, sql((h) => `INSERT INTO entry_word SELECT organisation, id, 'reason', 'x', 'made up' FROM entry WHERE id = '${h.early}'`)],
  ['a text of an entry that is not there', 2, /left-behind +entry .*the text of "note"/, sql((h) => `UPDATE entry_word SET entry = gen_random_uuid() WHERE entry = '${h.noted}'`)],
  ['how an entry came', 2, /sending-differs +entry .*Mill Lane: how it came is gone/, sql((h) => `DELETE FROM sending WHERE entry = '${h.early}'`)],
  ['when it came', 2, /sending-differs +entry .*at another time/, sql((h) => `UPDATE sending SET received_at = received_at - interval '1 hour' WHERE entry = '${h.early}'`)],
  ['who was signed on when it came', 2, /sending-differs +entry .*somebody else’s/, sql((h) => `UPDATE session SET person = gen_random_uuid() WHERE id = (SELECT session FROM sending WHERE entry = '${h.early}')`)],
  ['how an entry came that is not there', 2, /left-behind +entry .*there is no such entry/, sql((h) => `INSERT INTO sending SELECT organisation, gen_random_uuid(), received_at, session, attempt FROM sending WHERE entry = '${h.early}'`)],
  ['who signed', 2, /signature-differs +entry /, sql(() => `UPDATE signature_token SET person = gen_random_uuid() WHERE used_by = (SELECT min(used_by::text)::uuid FROM signature_token)`)],
  ['a signature that was used for nothing', 2, /left-behind +entry .*a signature was used/, sql(() => 'UPDATE signature_token SET used_by = gen_random_uuid() WHERE used_by = (SELECT min(used_by::text)::uuid FROM signature_token)')],
  ['a photo', 2, /photo-edited: Mill Lane: the photo/, sql((h) => `UPDATE photo SET bytes = '\\xffd8ff' WHERE id = '${h.photo}'`)],
  ['the key of a seal', 2, /seal-forged: .*not signed with the key of this house/, seals(() => "note = replace(note, chr(8212) || ' ', chr(8212) || ' x')")],
  ['the signature of a seal', 2, /seal-forged: .*changed after it was signed/, seals(() => "note = replace(note, E'\\n\\n', E'\\nanother line\\n\\n')")],
  ['the note of a seal', 2, /seal-forged: .*cannot be read/, seals(() => "note = 'garbled'")],
  ['the root of a seal', 2, /seal-forged: .*another root than stands beside it/, seals(() => "root = sha256('x')")],
  ['a seal that was deleted, with a later one after it', 2, /seal-gone: a seal over \d+ entries was made, as the one over \d+ says, and it is gone/, sql((h) => `DELETE FROM seal WHERE book = '${h.site}' AND size = ${h.firstSeal}`)],
  ['the newest seal, which a witness signed', 2, /seal-gone: a seal over \d+ entries was made, as a witness signed, and it is gone/, sql((h) => `INSERT INTO cosignature SELECT organisation, book, size, 'w', 'l', now() FROM seal WHERE book = '${h.site}' AND size = ${h.secondSeal}; DELETE FROM seal WHERE book = '${h.site}' AND size = ${h.secondSeal}`)],
  ['the size of a seal', 2, /seal-forged: .*its note is about \d+ entries/, seals(() => 'size = size - 1')],
  ['the book of a seal', 2, /seal-forged: .*/, sql((h) => `UPDATE seal SET book = (SELECT id FROM book WHERE type = 'organisation'), size = 2 WHERE book = '${h.site}' AND size = ${h.firstSeal}`)],
]; // prettier-ignore

export const workedOut: readonly Tampering[] = [
  ['a row', 1, /projection-differs +entry .*reading .* is changed/, sql((h) => `UPDATE reading SET figure = '26' WHERE entry = '${h.outside}'`)],
  ['a row that was put there', 1, /projection-differs +entry .*is not-from-the-ledger/, sql((h) => `INSERT INTO reading SELECT (jsonb_populate_record(r, jsonb_build_object('id', gen_random_uuid()))).* FROM reading r WHERE entry = '${h.early}'`)],
  ['a row that was taken away', 1, /projection-differs +entry .*deviation .* is missing/, sql((h) => `DELETE FROM deviation WHERE entry = '${h.outside}'`)],
  ['a row that was placed into another book', 1, /projection-differs +entry .*reading .* is not-from-the-ledger/, sql((h) => `UPDATE reading SET book = (SELECT id FROM book WHERE type = 'organisation') WHERE entry = '${h.outside}'`)],
  ['a row of no book', 2, /book-gone: .*1 of hold belong to it/, sql((h) => `INSERT INTO hold SELECT (jsonb_populate_record(NULL::hold, jsonb_build_object('organisation', organisation, 'book', gen_random_uuid(), 'id', gen_random_uuid(), 'entry', id, 'seq', 1, 'lot', gen_random_uuid(), 'at', recorded_at))).* FROM entry WHERE id = '${h.early}'`)],
  ['a note that a lot is clear', 1, /note-differs: lot .* is noted as clear, and something is open/, sql((h) => `INSERT INTO clear_lot VALUES ('${h.organisation}', '${h.make}', '2026-11-25T03:00:00Z')`)],
  ['since when a lot is clear', 1, /note-differs: lot .* is noted as clear from 2020.* and is from 2026/, sql(() => "UPDATE clear_lot SET since = '2020-01-01T00:00:00Z'")],
  ['what is on watch', 1, /note-differs: .* may be open and is not on watch/, sql(() => 'DELETE FROM on_watch')],
  ['what may still be in the house', 1, /note-differs: lot .* may still be in the house and is not noted so/, sql(() => 'DELETE FROM still_here')],
  ['where something may still be', 1, /note-differs: lot .* may still be in the house and is not noted so/, sql(() => 'UPDATE still_here SET book = gen_random_uuid()')],
]; // prettier-ignore

export const locks: readonly (readonly [what: string, found: RegExp, sql: string])[] = [
  ['a trigger that is gone', /^gone: seal: trigger seal_append_only, on/, 'DROP TRIGGER seal_append_only ON seal'],
  ['a trigger that is off', /^added: entry: trigger entry_append_only, off/, 'ALTER TABLE entry DISABLE TRIGGER entry_append_only'],
  ['what a trigger does', /^added: function refuse_change\(\): /, "CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RETURN NEW; END'"],
  ['a rule that swallows what is recorded', /^added: reading: rule lost/, 'CREATE RULE lost AS ON INSERT TO reading DO INSTEAD NOTHING'],
  ['triggers off for the whole database', /^added: setting of .*session_replication_role=replica/, "DO $$ BEGIN EXECUTE format('ALTER DATABASE %I SET session_replication_role = replica', current_database()); END $$"],
  ['row security that is off', /^gone: entry: row security on$/, 'ALTER TABLE entry DISABLE ROW LEVEL SECURITY'],
  ['a policy that is gone', /^gone: lot: policy lot_fence/, 'DROP POLICY lot_fence ON lot'],
  ['a policy that lets everything through', /^added: lot: policy more/, 'CREATE POLICY more ON lot USING (true)'],
  ['a right that is gone', /^gone: seal: bakehouse_service may INSERT, SELECT$/, 'REVOKE INSERT ON seal FROM bakehouse_service'],
  ['a right that was given', /^added: entry: bakehouse_service may DELETE, INSERT, SELECT, UPDATE$/, 'GRANT UPDATE, DELETE ON entry TO bakehouse_service'],
  ['a right of a column', /^added: entry\.person: bakehouse_service may UPDATE/, 'GRANT UPDATE (person) ON entry TO bakehouse_service'],
  ['a right for everybody', /^added: entry_word: everybody may SELECT/, 'GRANT SELECT ON entry_word TO PUBLIC'],
  ['a service that passes row security', /^added: role bakehouse_service: passes row security/, 'ALTER ROLE bakehouse_service BYPASSRLS'],
  ['a service that belongs to those who may read all', /^added: role bakehouse_service: belongs to pg_read_all_data/, 'GRANT pg_read_all_data TO bakehouse_service'],
  ['a service that owns a table', /^added: role bakehouse_service: owns entry/, 'ALTER TABLE entry OWNER TO bakehouse_service'],
]; // prettier-ignore

/** The name of the finding at the beginning of what is said. */
const findingIn = (found: RegExp): string => /^[a-z-]+/.exec(found.source)?.[0] ?? '';

/** The same as lines for people: what is done, what a verification calls it, how it ends. */
export function tamperingTable(): string {
  const rows = [
    ...[...entries, ...besideThem, ...workedOut].map(([what, code, found]) => [what, findingIn(found), String(code)] as const),
    ...locks.map(([what]) => [what, 'protection-differs', '1'] as const),
  ];
  const widths = [0, 1].map((i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  return rows.map(([what, found, code]) => `${what.padEnd(widths[0] ?? 0)}  ${found.padEnd(widths[1] ?? 0)}  ${code}\n`).join('');
}
