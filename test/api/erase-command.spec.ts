import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readBundle, verifyBundle } from '@bakehouse/ledger';
import type { Client } from 'pg';
import { bundleCommand } from '../../apps/api/src/bundle.command.js';
import { eraseCommand } from '../../apps/api/src/erase.command.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { copyOf, type TestDatabase } from '../support/database.js';
import { Hand } from '../support/hand.js';
import { sealKey } from '../support/tampered-house.js';

const [name, misspelled, number, note] = ['Wil Leve', 'Wil Lefe', '01632 960013', 'my back hurts'];
const [early, late] = [new SettableClock('2026-11-25T09:00:00Z'), new SettableClock('2033-06-01T12:00:00Z')];
const yes = ['--yes', '--by', 'Lee Dehl'] as const;
interface Ended {
  readonly code: number;
  readonly said: string;
}

describe('the command that erases a name', () => {
  let t: TestApp;
  let b: Bakehouse;
  let wil: string;
  let lot: string;
  let kept: { readonly text: string; readonly salt: string };
  let organisationHand: Hand;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z'), env: { SEAL_KEY: sealKey } });
    b = await Bakehouse.found(t);
    const caller = await b.house.signedOn(misspelled, ['baker']);
    wil = caller.person;
    await b.house.decide({ kind: 'person-joined', payload: {}, corrects: wil, words: { name, reason: `it is ${name}` } });
    const make = await b.begun('white', at('02:30'));
    const hand = new Hand(b.house, caller);
    await hand.record('reading-taken', b.reading('dough', 'make', make, '26'), { at: at('03:10'), words: { note } });
    await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25'), { at: at('03:11'), words: { note: `${name} was ill` } });
    lot = b.newId();
    const supplier = b.party('nuts');
    const lines = [b.line('flour', lot)];
    await b.baker.record('delivery-received', { supplier, noteNumber: 'DN 9', photo: null, unattended: false, lines }, { at: at('01:00') });
    const sold = [{ lots: [lot], quantity: g('500'), how: 'weighed' as const }];
    const sent = { channel: 'dispatch', customer: b.party('cafeC'), unattended: false, until: null, lines: sold } as const;
    await b.baker.record('sent-out', { ...sent, lines: sold }, { at: at('02:00') });
    organisationHand = new Hand(b.house, b.owner.caller, null);
  });
  afterAll(async () => {
    await t.database.drop();
  });

  const run = async (words: readonly string[], clock = late, database: TestDatabase = t.database): Promise<Ended> => {
    const said: string[] = [];
    const code = await eraseCommand(database, { words, say: (line) => said.push(line), config: { KEEP_NAMES_DAYS: 6 * 366 } }, clock);
    return { code, said: said.join('\n') };
  };
  const asked = (person: string, ...more: string[]) => ['--person', person, '--reason', 'they asked for it', ...more];
  const verified = async (database: TestDatabase = t.database, word = 'verify'): Promise<Ended> => {
    const said: string[] = [];
    const config = { SEAL_KEY: sealKey, DATA_DIR: '/nowhere' };
    const code = await ledgerCommand(database, { words: [word], say: (line) => said.push(line), config });
    return { code, said: said.join('\n') };
  };
  const query = <R extends object = object>(sql: string, values: readonly unknown[] = [], database: TestDatabase = t.database) =>
    connected(database.ownerUrl, (owner: Client) => owner.query<R>(sql, [...values]));
  const texts = async (like: string): Promise<number> =>
    (await query('SELECT FROM entry_word WHERE strpos(text, $1) > 0', [like])).rowCount ?? -1;
  const leaves = async () => (await query('SELECT book, seq, id, leaf FROM entry ORDER BY book, seq')).rows;
  /** All of it but how many records there are, which grows. */
  const traced = async (): Promise<string> =>
    JSON.stringify({ ...(await b.owner.caller.get(`/lots/${lot}/trace`).expect(200)).body, asOf: null });

  it('refuses what it does not understand, nobody, and who decides about themselves, with a sentence', async () => {
    for (const words of [
      [],
      ['--person', name],
      asked(name, '--yes'),
      asked(name, '--all'),
      asked(name, ...yes, '--dry-run'),
      asked(name, '--even-so', ' '),
    ])
      expect(await run(words)).toEqual({ code: 2, said: expect.stringMatching(/^Say whose name/) });
    expect(await run(asked('Nobody'))).toEqual({ code: 2, said: 'Nobody here is called so.' });
    expect(await run(asked(name, '--yes', '--by', name))).toEqual({
      code: 2,
      said: expect.stringMatching(/one other person of this house/),
    });
  });

  it('refuses while a person still works here, and while the house still deals with a supplier', async () => {
    const before = await leaves();
    expect(await run(asked(name, ...yes))).toEqual({ code: 1, said: 'They still work here. Record first that they have left.' });
    expect(await run(asked('Nut importer', ...yes))).toEqual({ code: 1, said: expect.stringMatching(/^The house still deals with them/) });
    expect([await leaves(), await texts(name)]).toEqual([before, 3]);
  });

  it('refuses what is younger than the setting says, and a reason that keeps the name', async () => {
    await b.house.decide({ kind: 'person-left', payload: { person: wil } });
    expect(await run(asked(name, ...yes), early)).toEqual({
      code: 1,
      said: expect.stringMatching(/younger than 2196 days \(KEEP_NAMES_DAYS\)\. It is kept until 2032-11-29/),
    });
    expect(await run(['--person', wil, '--reason', `${name} asked`, ...yes])).toEqual({
      code: 1,
      said: expect.stringMatching(/^The reason would keep/),
    });
  });

  it('refuses a supplier whom an open case needs, and texts of a person while any case is open', async () => {
    const scope = [{ lot, certain: true, minPpt: 1, maxPpt: 1_000_000_000_000, begins: true }];
    const hazard = { hazard: 'microbiological', hazardName: 'Salmonella', practice: true } as const;
    const opened = { suspect: [lot], ...hazard, frozenAt: [{ book: b.site, size: 1 }], scopeHash: 'ab'.repeat(32), scope };
    const recall = (await organisationHand.record('recall-opened', opened, { at: at('03:32') })).id;
    for (const party of [b.party('nuts'), b.party('cafeC')]) await b.house.decide({ kind: 'party-stopped', payload: { party } });
    for (const one of ['Nut importer', 'Garden café'])
      expect(await run(asked(one, ...yes))).toEqual({
        code: 1,
        said: expect.stringMatching(/^An open recall case needs to reach them/),
      });
    expect((await run(asked(wil, '--their-texts', ...yes))).said).toMatch(/^While a recall case is open/);
    const words = { why: 'waits', conclusion: 'done' };
    await new Hand(b.house, b.lead.caller, null).record('recall-closed', { recall, staysOnHold: [lot], notReached: [] }, { words });
  });

  it('counts and changes nothing without --yes', async () => {
    const before = [await leaves(), await texts(name)];
    const { code, said } = await run(asked(name, '--their-texts', '--dry-run'));
    expect([code, said]).toEqual([
      0,
      expect.stringMatching(
        /own book: 2 of "name", 1 of "reason" would be erased\n.*Mill Lane: 1 of "note" would be erased\n1 other text with the same name.*\nNothing was changed\./,
      ),
    ]);
    expect([await leaves(), await texts(name)]).toEqual(before);
  });

  it('erases names, leaves what they wrote, records it, and verify is clean; bytes, leaves and rows’ ids stay', async () => {
    const [before, { rows: events }] = [
      await leaves(),
      await query('SELECT FROM security_event WHERE person = $1 AND address IS NOT NULL', [wil]),
    ];
    expect(events.length).toBeGreaterThan(0);
    const { rows: its } = await query<typeof kept>("SELECT text, salt FROM entry_word WHERE entry = $1 AND key = 'name'", [wil]);
    kept = its[0] ?? { text: '', salt: '' };
    const { code, said } = await run(asked(name, ...yes));
    expect([code, said]).toEqual([0, expect.stringMatching(/own book: 2 of "name", 1 of "reason" erased[^]*Backups from before/)]);
    expect([await texts(misspelled), await texts(name), await texts(note)]).toEqual([0, 1, 1]);
    expect((await leaves()).filter((e) => before.some((x) => JSON.stringify(x) === JSON.stringify(e)))).toEqual(before);
    expect((await query('SELECT id, name FROM person WHERE id = $1', [wil])).rows).toEqual([
      { id: wil, name: 'a person whose name was erased' },
    ]);
    const told = await query<{ payload: unknown; reason: string; name: string }>(
      `SELECT convert_from(b.bytes, 'UTF8')::json #> '{input,payload}' AS payload, w.text AS reason, p.name
       FROM entry e JOIN entry_body b USING (organisation, book, seq) JOIN entry_word w ON w.entry = e.id AND w.key = 'reason' JOIN person p ON p.id = e.person
       WHERE e.kind = 'words-erased'`,
    );
    const [corrected] = (await query<{ id: string }>('SELECT id FROM entry WHERE root = $1 AND id <> root', [wil])).rows;
    const words = [
      { field: 'name', entries: [wil, corrected?.id] },
      { field: 'reason', entries: [corrected?.id] },
    ];
    expect(told.rows).toEqual([{ payload: { of: 'person', who: wil, words }, reason: 'they asked for it', name: 'Lee Dehl' }]);
    const all = await verified();
    expect([all.code, all.said]).toEqual([0, expect.stringMatching(/word-erased {2}entry [^]*No faults found\.$/)]);
  });

  it('ends their sign-on and takes the addresses out of the notes at the door, and no other can be changed in them', async () => {
    const of = async (sql: string) => (await query(sql, [wil])).rowCount;
    expect(await of('SELECT FROM credential WHERE person = $1')).toBe(0);
    expect(await of('SELECT FROM session WHERE person = $1 AND ended_at IS NULL')).toBe(0);
    expect(await of('SELECT FROM security_event WHERE person = $1 AND address IS NOT NULL')).toBe(0);
    expect(await of('SELECT FROM security_event WHERE person = $1')).toBeGreaterThan(0);
    await expect(query("UPDATE security_event SET what = 'x'")).rejects.toThrow();
    await expect(query("UPDATE security_event SET address = '10.0.0.0'")).rejects.toThrow();
  });

  it('erases what they wrote on demand, with the reason for doing it early; twice changes nothing; a rebuild keeps it erased', async () => {
    expect((await run(asked(wil, '--their-texts', '--even-so', 'a court says so', ...yes), early)).code).toBe(0);
    expect(await texts(note)).toBe(0);
    expect(await texts('they asked for it. Before its time, because: a court says so')).toBe(1);
    const before = await leaves();
    expect(await run(asked(wil, '--their-texts', ...yes))).toEqual({
      code: 0,
      said: 'Nothing of theirs is left to erase. Nothing was changed.',
    });
    expect(await leaves()).toEqual(before);
    expect((await verified(t.database, 'rebuild')).code).toBe(0);
    expect([(await query('SELECT FROM person WHERE name = $1', [name])).rowCount, (await verified()).code]).toEqual([0, 0]);
  });

  it('erases a customer; the contact list’s number and name say so, and the trace is else the same', async () => {
    const before = await traced();
    expect((await run(asked('Garden café', ...yes))).said).toMatch(/own book: 1 of "contactName", 1 of "name", 1 of "phone" erased/);
    expect([await texts('Garden café'), await texts(number)]).toEqual([0, 0]);
    const { rows } = await query('SELECT name, phone FROM party WHERE party = $1', [b.party('cafeC')]);
    expect(rows).toEqual([{ name: 'name erased, ask an administrator', phone: 'number erased' }]);
    expect(before).toMatch(/Garden café.*01632 960013/);
    expect(await traced()).toEqual(
      before
        .replaceAll('Garden café', 'name erased, ask an administrator')
        .replaceAll(number, 'number erased')
        .replaceAll('the person who answers', 'erased'),
    );
    expect((await verified()).code).toBe(0);
  });

  it('gives a bundle that still verifies, without these texts, and says that they were erased', async () => {
    const out = mkdtempSync(path.join(tmpdir(), 'erased-'));
    const said: string[] = [];
    const config = { SEAL_KEY: sealKey, DATA_DIR: '/nowhere' };
    expect(await bundleCommand(t.database, { words: ['--out', out, '--words'], say: (line) => said.push(line), config }, late, [])).toBe(0);
    const text = readFileSync(path.join(out, 'bundle.json'), 'utf8');
    rmSync(out, { recursive: true });
    const bundle = readBundle(text);
    expect(bundle && verifyBundle(bundle).ok).toBe(true);
    expect([said.join('\n'), text]).toEqual([
      expect.stringMatching(/House \d+: .*; 6 texts not there: erased, on record\nMill Lane: .*; 1 text not there/),
      expect.not.stringContaining(note),
    ]);
  });

  it('may not be recorded by anybody through the door', async () => {
    const payload = { of: 'person' as const, who: wil, words: [{ field: 'name', entries: [wil] }] };
    expect(await organisationHand.refused('words-erased', payload, { words: { reason: 'to hide it' } })).toMatchObject({
      problem: 'not-permitted',
    });
  });

  describe('after which somebody tampers with the texts', () => {
    beforeAll(() => t.app.close());

    it.each([
      ['a text taken away without a record', 1, /word-gone +entry /, `DELETE FROM entry_word WHERE text = 'Ada Min'`],
      [
        'a text that stands as erased without a record',
        2,
        /word-edited +entry .*no record says/,
        `UPDATE entry_word SET text = 'a person whose name was erased', salt = repeat('0', 32) WHERE text = 'Ada Min'`,
      ],
      [
        'another text in the place of an erased one',
        2,
        /word-edited +entry /,
        `UPDATE entry_word SET text = 'Bo Baker' WHERE text = 'a person whose name was erased'`,
      ],
      ['an erased text that was put back', 1, /word-back +entry /, 'restored'],
    ])('%s is found', async (_what, code, found, sql) => {
      const copy = await copyOf(new URL(t.database.ownerUrl).pathname.slice(1));
      if (sql === 'restored')
        await query('UPDATE entry_word SET text = $2, salt = $3 WHERE entry = $1 AND key = $4', [wil, kept.text, kept.salt, 'name'], copy);
      else await query(sql, [], copy);
      const ended = await verified(copy);
      await copy.drop();
      expect([ended.code, ended.said]).toEqual([code, expect.stringMatching(found)]);
    });
  });
});
