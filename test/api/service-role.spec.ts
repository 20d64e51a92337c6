import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { entry } from '../support/entries.js';
import { as, expectSound, startLedger, type TestLedger } from '../support/ledger.js';
import { roomReading } from '../support/payloads.js';

/** What somebody can do who has the service's login and writes SQL by hand: each statement as that role, within the fence of the house. */
describe('the service’s role, by hand', () => {
  let ledger: TestLedger;
  let first: string;
  const [session, device] = [randomUUID(), randomUUID()];
  const byHand = (text: string): Promise<number | null> =>
    ledger.tenancy.inOrganisation(ledger.organisation, async (client) => (await client.query(text)).rowCount);

  beforeAll(async () => {
    ledger = await startLedger();
    const readings = ['20', '99'].map((celsius) => entry('reading-taken', roomReading(ledger.site.id, celsius)));
    expect(as(await ledger.writer.record(ledger.site, ledger.asker(), readings))).toEqual(['recorded', 'recorded']);
    first = readings[0]?.id ?? '';
    const at = '2026-11-25T12:00:00Z';
    await ledger.owner.query(
      `INSERT INTO device (organisation, id, name, site, token_hash, enrolled_at, enrolled_by, revoked_at, revoked_by)
       VALUES ($1, $2, 'Table', $3, '\\x01', $4, $1, $4, $1)`,
      [ledger.organisation, device, ledger.site.id, at],
    );
    await ledger.owner.query(
      `INSERT INTO session (organisation, id, token_hash, person, device, strength, created_at, expires_at, last_seen_at, ended_at, ended_why)
       VALUES ($1, $2, '\\x02', $1, $3, 'pin', $4, $4, $4, $4, 'ended-elsewhere')`,
      [ledger.organisation, session, device, at],
    );
    await ledger.owner.query(
      `INSERT INTO signature_token (organisation, token_hash, person, input_hash, meaning, signed_at, expires_at, used_by)
       VALUES ($1, '\\x03', $1, '\\x03', 'x', $2, $2, $3)`,
      [ledger.organisation, at, first],
    );
    await ledger.owner.query(
      `INSERT INTO enrolment_code (organisation, code_hash, site, made_at, made_by, expires_at, used_at) VALUES ($1, '\\x04', $2, $3, $1, $3, $3)`,
      [ledger.organisation, ledger.site.id, at],
    );
  });
  afterAll(() => ledger.stop());

  it.each([
    'UPDATE entry SET person = gen_random_uuid()',
    'DELETE FROM entry',
    "UPDATE entry_body SET bytes = 'x'",
    'DELETE FROM entry_body',
    "UPDATE entry_word SET text = 'x'",
    'DELETE FROM entry_word',
    'UPDATE sending SET session = gen_random_uuid()',
    'DELETE FROM sending',
    'DELETE FROM seal',
    'UPDATE session SET person = gen_random_uuid()',
    'UPDATE session SET expires_at = now()',
    "UPDATE session SET token_hash = '\\x05'",
    "UPDATE device SET token_hash = '\\x05'",
    'UPDATE signature_token SET person = gen_random_uuid()',
    "UPDATE organisation SET name = 'x'",
    "INSERT INTO book (organisation, id, type, name, zone) VALUES (current_organisation(), gen_random_uuid(), 'site', 'x', 'Europe/London')",
    'DELETE FROM book',
    'UPDATE _prisma_migrations SET checksum = NULL',
    'TRUNCATE reading',
  ])('is not allowed: %s', async (text) => {
    await expect(byHand(text)).rejects.toThrow(/permission denied/);
  });

  it.each([
    'ALTER TABLE entry DISABLE TRIGGER entry_append_only',
    'DROP TRIGGER session_stays_ended ON session',
    'DROP POLICY reading_fence ON reading',
    'ALTER TABLE reading DISABLE ROW LEVEL SECURITY',
    "SET LOCAL session_replication_role = 'replica'",
    'SET LOCAL ROLE bakehouse_owner',
    'CREATE OR REPLACE FUNCTION current_organisation() RETURNS uuid LANGUAGE sql AS $$ SELECT NULL::uuid $$',
    'CREATE TABLE public.entry_too ()',
  ])('takes no lock away: %s', async (text) => {
    await expect(byHand(text)).rejects.toThrow(/must be owner|permission denied/);
  });

  it.each([
    ['a session that ended', 'UPDATE session SET ended_at = NULL, ended_why = NULL'],
    ['when it ended', "UPDATE session SET ended_at = ended_at + interval '1 day'"],
    ['a tablet that was revoked', 'UPDATE device SET revoked_at = NULL, revoked_by = NULL'],
    ['who revoked it', 'UPDATE device SET revoked_by = gen_random_uuid()'],
    ['a signature that was used', 'UPDATE signature_token SET used_by = NULL'],
    ['a code that was used', 'UPDATE enrolment_code SET used_at = NULL'],
  ])('brings nothing back: %s', async (_what, text) => {
    await expect(byHand(text)).rejects.toThrow(/is not undone/);
  });

  it('adds no row beside what the entries give', async () => {
    const copy = `INSERT INTO reading SELECT (jsonb_populate_record(r, jsonb_build_object('id', gen_random_uuid()))).* FROM reading r WHERE entry = '${first}'`;
    await expect(byHand(copy)).rejects.toThrow(/violates row-level security policy "reading_with_its_entry"/);
    const made = copy.replace("'id', gen_random_uuid()", "'id', gen_random_uuid(), 'entry', gen_random_uuid()");
    await expect(byHand(made)).rejects.toThrow(/violates row-level security policy "reading_with_its_entry"/);
  });

  it('changes no row and takes none away', async () => {
    expect(await byHand("UPDATE reading SET figure = '20'")).toBe(0);
    expect(await byHand('DELETE FROM reading')).toBe(0);
    expect((await ledger.owner.query('SELECT FROM reading')).rowCount).toBe(2);
    const over = "INSERT INTO reading SELECT * FROM reading ON CONFLICT (organisation, id) DO UPDATE SET figure = '20'";
    await expect(byHand(over)).rejects.toThrow(/row-level security/);
  });

  it('changes no row of a chain with the entry of another', async () => {
    const [row] = (await ledger.owner.query<{ id: string; entry: string }>('SELECT id, entry FROM reading WHERE entry = $1', [first])).rows;
    const appended = entry('reading-taken', roomReading(ledger.site.id, '21'));
    await ledger.tenancy
      .inOrganisation(ledger.organisation, async (client) => {
        await client.query(
          `INSERT INTO entry SELECT (jsonb_populate_record(e, jsonb_build_object('id', $1::uuid, 'root', $1::uuid, 'seq', 99))).* FROM entry e WHERE id = $2`,
          [appended.id, first],
        );
        expect((await client.query('UPDATE reading SET entry = $1 WHERE id = $2', [appended.id, row?.id])).rowCount).toBe(0);
        expect((await client.query('DELETE FROM reading WHERE id = $1', [row?.id])).rowCount).toBe(0);
        throw new Error('seen');
      })
      .catch((error: Error) => expect(error.message).toBe('seen'));
  });

  it('sees and changes nothing of another house', async () => {
    const elsewhere = (text: string) => ledger.tenancy.inOrganisation(randomUUID(), async (client) => (await client.query(text)).rowCount);
    expect(await elsewhere('SELECT FROM entry')).toBe(0);
    expect(await elsewhere('UPDATE session SET ended_at = now()')).toBe(0);
    expect(await elsewhere('DELETE FROM session')).toBe(0);
    await expect(
      byHand(`INSERT INTO sending (organisation, entry, received_at) VALUES (gen_random_uuid(), '${first}', now())`),
    ).rejects.toThrow(/row-level security/);
  });

  it('writes through the door all the same, a withdrawal too, and everything verifies', async () => {
    const more = entry('reading-taken', roomReading(ledger.site.id, '22'));
    expect(as(await ledger.writer.record(ledger.site, ledger.asker(), [more]))).toEqual(['recorded']);
    expect(
      as(
        await ledger.writer.record(ledger.site, ledger.asker(), [
          entry('entry-withdrawn', {}, { corrects: first, words: { reason: 'a double tap' } }),
        ]),
      ),
    ).toEqual(['recorded']);
    expect((await ledger.owner.query('SELECT FROM reading WHERE entry = $1', [first])).rowCount).toBe(0);
    await expectSound(ledger);
  });
});
