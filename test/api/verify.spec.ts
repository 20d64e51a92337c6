import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { Finding } from '../../apps/api/src/platform/ledger/findings.js';
import { verifyBytes, verifyForm } from '../../apps/api/src/platform/ledger/verify.js';
import { entry } from '../support/entries.js';
import { startLedger, type TestLedger } from '../support/ledger.js';
import { roomReading } from '../support/payloads.js';

let ledger: TestLedger;
let ids: string[];
beforeAll(async () => {
  ledger = await startLedger();
});
afterAll(() => ledger.stop());
beforeEach(async () => {
  await fresh();
});

/** Twelve readings with a word each, in a book of their own. */
async function fresh(): Promise<void> {
  const id = (await ledger.owner.query<{ id: string }>('SELECT gen_random_uuid() AS id')).rows[0]?.id ?? '';
  ledger.site = { ...ledger.site, id };
  await ledger.owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Site', 'Europe/London')", [
    ledger.organisation,
    id,
  ]);
  const entries = Array.from({ length: 12 }, (_, i) =>
    entry('reading-taken', roomReading(id, String(20 + i)), { words: { note: `note ${i}` } }),
  );
  ids = entries.map((e) => e.id);
  const results = await ledger.writer.record(ledger.site, ledger.asker(), entries);
  expect(results.map((r) => r.as)).toEqual(ids.map(() => 'recorded'));
}

/** As somebody with the owner's keys would: the second lock taken away, changed, and put back. */
async function behind(sql: string, values: unknown[] = []): Promise<void> {
  await ledger.owner.query('BEGIN');
  for (const t of ['entry', 'entry_body']) await ledger.owner.query(`ALTER TABLE ${t} DISABLE TRIGGER USER`);
  for (const one of sql.split(';')) await ledger.owner.query(one, one.includes('$1') ? values : []);
  for (const t of ['entry', 'entry_body']) await ledger.owner.query(`ALTER TABLE ${t} ENABLE TRIGGER USER`);
  await ledger.owner.query('COMMIT');
}

const verify = (): Promise<Finding[]> =>
  ledger.tenancy.inOrganisation(ledger.organisation, async (client) => [
    ...(await verifyBytes(client, ledger.site)).findings,
    ...(await verifyForm(client, ledger.site)),
  ]);
const found = async (): Promise<string[]> => (await verify()).map((f) => `${f.type} ${f.seq ?? '-'}`);
const book = (): string => `'${ledger.site.id}'`;

describe('what a verification tells apart', () => {
  it('nothing, where nothing was touched', async () => {
    expect(await found()).toEqual([]);
  });

  it('one changed byte, by the entry’s name', async () => {
    await behind(`UPDATE entry_body SET bytes = set_byte(bytes, 40, get_byte(bytes, 40) # 1) WHERE book = ${book()} AND seq = 5`);
    expect((await verify())[0]).toMatchObject({ type: 'edited', seq: 5, entry: ids[5] });
  });

  it('a body written anew with a leaf that fits it: the tree no longer gives the head’s root', async () => {
    await behind(`UPDATE entry_body SET bytes = convert_to(replace(convert_from(bytes, 'UTF8'), '"25"', '"24"'), 'UTF8') WHERE book = ${book()} AND seq = 5;
      UPDATE entry e SET leaf = sha256('\\x00'::bytea || b.bytes) FROM entry_body b WHERE b.book = e.book AND b.seq = e.seq AND e.book = ${book()} AND e.seq = 5`);
    const findings = await found();
    expect(findings).toContain('tree-differs -');
    expect(findings).toContain('edited 5'); // its input hash no longer fits
  });

  it.each([
    ['who recorded it', 'person = gen_random_uuid()'],
    ['how surely its time is known', "precision = 'about'"],
    ['until when it went on', "precision = 'between', until = '2026-11-25T06:00:00Z'"],
    ['a signature', "signed_by = gen_random_uuid(), signed_at = '2026-11-25T06:00:00Z', signed_as = 'approved'"],
  ])('%s beside its bytes, which say otherwise', async (_, change) => {
    await behind(`UPDATE entry SET ${change} WHERE book = ${book()} AND seq = 5`);
    expect(await found()).toEqual(['edited 5']);
  });

  it('a missing entry in the middle, and at the end', async () => {
    await behind(
      `DELETE FROM entry_body WHERE book = ${book()} AND seq IN (3, 11); DELETE FROM entry WHERE book = ${book()} AND seq IN (3, 11)`,
    );
    expect(await found()).toEqual(expect.arrayContaining(['missing 3', 'missing 11']));
  });

  it('two entries that changed places', async () => {
    await behind(`UPDATE entry_body SET seq = -1 WHERE false;
      CREATE TEMP TABLE b ON COMMIT DROP AS SELECT * FROM entry_body WHERE book = ${book()} AND seq IN (2, 7);
      CREATE TEMP TABLE n ON COMMIT DROP AS SELECT * FROM entry WHERE book = ${book()} AND seq IN (2, 7);
      UPDATE entry_body t SET bytes = b.bytes FROM b WHERE t.book = b.book AND t.seq = 9 - b.seq;
      UPDATE entry t SET leaf = n.leaf FROM n WHERE t.book = n.book AND t.seq = 9 - n.seq`);
    expect(await found()).toEqual(expect.arrayContaining(['reordered 2', 'reordered 7', 'tree-differs -']));
  });

  it('one entry written twice over another', async () => {
    await behind(`UPDATE entry_body t SET bytes = o.bytes FROM entry_body o WHERE t.book = ${book()} AND o.book = t.book AND o.seq = 1 AND t.seq = 8;
      UPDATE entry t SET leaf = o.leaf FROM entry o WHERE t.book = ${book()} AND o.book = t.book AND o.seq = 1 AND t.seq = 8`);
    expect(await found()).toEqual(expect.arrayContaining(['written-twice 8', 'tree-differs -']));
  });

  it('a body that is gone and was not withheld on record', async () => {
    await behind(`DELETE FROM entry_body WHERE book = ${book()} AND seq = 4`);
    expect(await found()).toEqual(['body-removed 4', 'word-edited 4']);
  });

  it('a word that is not the one committed to, and a word that is gone', async () => {
    await ledger.owner.query("UPDATE entry_word SET text = 'another' WHERE entry = $1", [ids[6]]);
    await ledger.owner.query('DELETE FROM entry_word WHERE entry = $1', [ids[7]]);
    expect((await verify()).map((f) => [f.type, f.entry])).toEqual([
      ['word-edited', ids[6]],
      ['word-gone', ids[7]],
    ]);
  });

  it('a sealed tree that was rewritten whole', async () => {
    await ledger.owner.query(
      "INSERT INTO seal (organisation, book, size, root, note, at) VALUES ($1, $2, 6, sha256('other'), 'note', now())",
      [ledger.organisation, ledger.site.id],
    );
    expect(await found()).toEqual(['seal-forged -', 'seal-differs 5']);
  });

  it('cannot be done as the service: it may add, and nothing else', async () => {
    await expect(
      ledger.tenancy.inOrganisation(ledger.organisation, (client) => client.query('UPDATE entry SET kind = kind')),
    ).rejects.toThrow(/permission denied/);
    await expect(ledger.tenancy.inOrganisation(ledger.organisation, (client) => client.query('DELETE FROM entry_body'))).rejects.toThrow(
      /permission denied/,
    );
    await expect(ledger.owner.query('DELETE FROM entry')).rejects.toThrow(/append-only/);
  });
});
