import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync, appendFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import {
  formatFor,
  checkpointText,
  fromHex,
  heldIn,
  leafHash,
  openNote,
  readBundle,
  readCosignature,
  signNote,
  textOfNote,
  Tree,
  utf8,
  verifyBundle,
} from '@bakehouse/ledger';
import { askWitness, WitnessDiffers } from '../../apps/api/src/modules/seals/ask-witness.js';
import { lastSealOf } from '../../apps/api/src/modules/seals/cosignatures.query.js';
import { bookInBundle, leaveHouse, SealKey, type Left } from '../../apps/api/src/modules/seals/index.js';
import { openWitness, witnessServer, type WitnessFolder } from '../../apps/api/src/modules/witness/index.js';
import { doctorCommand } from '../../apps/api/src/doctor.command.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { originOf } from '../../apps/api/src/platform/ledger/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House, type Caller } from '../support/people.js';

const secret = '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60'; // RFC 8032 §7.1, TEST 1
const SEAL_KEY = Buffer.from(secret, 'hex').toString('base64');

describe('seals that leave the house by themselves', () => {
  let t: TestApp;
  let clock: SettableClock;
  let house: House;
  let baker: Caller;
  let folder: string;
  const key = new SealKey({ SEAL_KEY, DATA_DIR: '/nowhere' });

  beforeAll(async () => {
    clock = new SettableClock('2026-11-25T03:40:00Z');
    t = await startTestApp({ env: { SEAL_KEY } }); // by a clock of its own: sessions would end with the days that go by here
    house = await House.found(t);
    baker = await house.signedOn('Bo Baker', ['baker']);
    await record(3);
  });
  afterAll(() => t.close());
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'seals-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  const reading = () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) });
  const record = (n: number) => baker.post(`/sites/${house.site}/entries`, Array.from({ length: n }, reading)).expect(200);
  const leave = (config: Parameters<typeof leaveHouse>[1]['config'], now = false): Promise<Left> =>
    connected(t.database.ownerUrl, (owner) => leaveHouse(owner, { config, key, clock, now }));
  const rows = async <Row extends object>(sql: string): Promise<Row[]> =>
    connected(t.database.ownerUrl, async (owner) => (await owner.query<Row>(sql)).rows);
  const nothing: Left = { done: [], failed: [], alarms: [] };

  it('are made once a day of each book that has new records, and not where there are none', async () => {
    const count = async (): Promise<number> => (await rows(`SELECT FROM seal WHERE book = '${house.site}'`)).length;
    expect(await leave({})).toEqual(nothing);
    expect(await count()).toBe(1);
    await record(1);
    clock.advance({ hours: 23 });
    await leave({});
    expect(await count()).toBe(1);
    clock.advance({ hours: 1 });
    await leave({});
    expect(await count()).toBe(2);
    clock.advance({ hours: 24 });
    await leave({});
    expect(await count()).toBe(2);
  });

  it('are written as one file of the day for each house, with what checks them, and once', async () => {
    const SEALS_DIR = path.join(folder, 'made', 'here');
    const { done, failed } = await leave({ SEALS_DIR });
    const name = `seals-${clock.now().toISOString().slice(0, 10)}-${house.organisation}.txt`;
    expect([readdirSync(SEALS_DIR), failed, done.length]).toEqual([[name], [], 1]);
    const text = readFileSync(path.join(SEALS_DIR, name), 'utf8');
    const verifierKey = await key.verifierKey(originOf(house.site));
    const held = heldIn(text);
    expect(held).toContain(verifierKey);
    expect(held).toHaveLength(4); // of two books a key and a seal; what is for people is passed over
    const note = held.find((one) => one.startsWith(`${originOf(house.site)}\n`));
    expect(openNote(`${note}\n`, verifierKey).ok).toBe(true);
    expect(await leave({ SEALS_DIR })).toEqual(nothing);
    clock.advance({ hours: 24 });
    await leave({ SEALS_DIR });
    expect(readdirSync(SEALS_DIR)).toHaveLength(2);
  });

  it('that cannot be written are told, and written when they can be', async () => {
    const SEALS_DIR = path.join(folder, 'taken');
    writeFileSync(SEALS_DIR, 'a file');
    expect((await leave({ SEALS_DIR })).failed).toEqual([expect.stringContaining('could not be written')]);
    rmSync(SEALS_DIR);
    expect(await leave({ SEALS_DIR })).toMatchObject({ failed: [], done: [expect.stringContaining('seals-')] });
  });

  describe('to a witness', () => {
    let server: Server;
    let witness: WitnessFolder;
    let url: string;
    const books = () => path.join(folder, 'books.txt');
    const serve = async (): Promise<void> => {
      witness = await openWitness(folder, 'witness.example/one', clock);
      server = witnessServer(witness, () => undefined);
      await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
      const address = server.address();
      url = `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}/`;
    };
    const end = () =>
      new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    const ask = (now = false): Promise<Left> => leave({ WITNESSES: [{ url, key: witness.key }] }, now);

    beforeEach(async () => {
      await serve();
      for (const { id } of await rows<{ id: string }>('SELECT id FROM book'))
        appendFileSync(books(), `${await key.verifierKey(originOf(id))}\n`);
    });
    afterEach(end);

    it('are cosigned, kept with the seal and not asked for again; a grown book is shown to extend what was signed', async () => {
      const first = await ask(true);
      expect(first).toMatchObject({ failed: [], alarms: [] });
      expect(first.done.filter((line) => line.includes('cosigned'))).toHaveLength(2);
      expect(await ask()).toEqual(nothing);
      await record(5);
      clock.advance({ hours: 24 });
      expect((await ask()).done).toEqual([expect.stringContaining('cosigned')]);
      const kept = await rows<{ note: string; line: string; at: string; size: number }>(
        `SELECT s.note, c.line, c.at, s.size FROM cosignature c JOIN seal s USING (organisation, book, size) WHERE s.book = '${house.site}' AND c.witness = '${witness.key}' ORDER BY s.size`,
      );
      expect(kept).toHaveLength(2);
      for (const { note, line, at } of kept)
        expect(readCosignature(line, textOfNote(note) ?? '', witness.key)).toEqual({
          is: 'good',
          seconds: Math.floor(Date.parse(at) / 1000),
        });
      const handed = await connected(t.database.ownerUrl, async (owner) => {
        const last = await lastSealOf(owner, { organisation: house.organisation, id: house.site });
        if (!last) throw new Error('no seal');
        const book = { organisation: house.organisation, id: house.site, name: 'Mill Lane' };
        const verifierKey = await key.verifierKey(originOf(house.site));
        return bookInBundle(owner, book, { ...last, keys: { verifierKey, statements: [] } }, { first: 0, count: last.size, fields: [] });
      });
      expect(handed.earlier.filter((one) => one.cosignatures)).toHaveLength(1);
      const bundle = readBundle(JSON.stringify({ format: formatFor([handed]), books: [handed] }));
      expect(bundle && verifyBundle(bundle, [witness.key])).toMatchObject({
        ok: true,
        held: [{ finding: 'is-a-witness-here', cosigned: { size: kept.at(-1)?.size } }],
      });
      await expect(rows(`UPDATE cosignature SET line = ''`)).rejects.toThrow(/append-only/);
      await expect(rows(`DELETE FROM cosignature`)).rejects.toThrow(/append-only/);
    });

    it('that does not know what it signed before tells how far it is, and is asked from there', async () => {
      await ask(true);
      await end();
      await serve(); // what it has seen is in its folder
      await connected(t.database.ownerUrl, async (owner) => {
        await owner.query('ALTER TABLE cosignature DISABLE TRIGGER cosignature_append_only');
        await owner.query('DELETE FROM cosignature'); // as in a backup of before
        await owner.query('ALTER TABLE cosignature ENABLE TRIGGER cosignature_append_only');
      });
      await record(2);
      expect(await ask(true)).toMatchObject({ failed: [], alarms: [], done: [expect.any(String), expect.any(String)] });
    });

    it('that is given another history, or one that was cut back, is refused, also after the witness was started again; the evidence is kept', async () => {
      await ask(true);
      await end();
      await serve();
      const origin = originOf(house.site);
      const [last] = await rows<{ size: number; note: string }>(
        `SELECT size, note FROM seal WHERE book = '${house.site}' ORDER BY size DESC LIMIT 1`,
      );
      const size = last?.size ?? 0;
      const sealed = (tree: Tree) => ({
        size: tree.size,
        note: signNote(checkpointText({ origin, size: tree.size, root: tree.root() }), origin, fromHex(secret)),
        proofFrom: (from: number) => Promise.resolve(from === 0 ? [] : tree.consistencyProof(from)),
      });
      const treeOf = (n: number) => Tree.over(Array.from({ length: n }, (_, i) => leafHash(utf8(`written anew ${i}`))));
      const give = (n: number, seen = size) => askWitness({ url, key: witness.key }, sealed(treeOf(n)), seen);
      await expect(give(size + 4)).rejects.toThrow(WitnessDiffers);
      await expect(give(size)).rejects.toThrow(/another seal over/);
      await expect(give(size - 1, 0)).rejects.toThrow(`it has seen ${size} records, and here are ${size - 1}`);
      const refused = readdirSync(path.join(folder, 'refused')).map((name) => readFileSync(path.join(folder, 'refused', name), 'utf8'));
      expect(refused).toHaveLength(2);
      for (const text of refused) expect(text).toContain(last?.note.trimEnd());
      expect(await ask()).toEqual(nothing);
      await record(1);
      expect(await ask(true)).toMatchObject({ alarms: [], failed: [] }); // the history that it signed goes on
    });

    it('that was cut off here is an alarm', async () => {
      const origin = originOf(house.site);
      const longer = Tree.over(Array.from({ length: 5000 }, (_, i) => leafHash(utf8(`more than here ${i}`))));
      const note = signNote(checkpointText({ origin, size: 5000, root: longer.root() }), origin, fromHex(secret));
      await askWitness({ url, key: witness.key }, { size: 5000, note, proofFrom: () => Promise.resolve([]) }, 0);
      await record(1);
      const { alarms } = await ask(true);
      expect(alarms).toEqual([expect.stringMatching(/it has seen 5000 records, and here are \d+\. Records here were changed or cut off/)]);
    });

    it('that does not know the book, is away or answers by another key is told, and nothing is kept', async () => {
      const before = await rows('SELECT FROM cosignature');
      writeFileSync(books(), '# nobody\n');
      expect((await ask(true)).failed).toEqual([expect.stringContaining('it does not know this book'), expect.stringContaining('404')]);
      appendFileSync(books(), `${await key.verifierKey(originOf(house.site))}\n`);
      const other = await openWitness(path.join(folder, 'other'), 'witness.example/other', clock);
      const answered = await leave({ WITNESSES: [{ url, key: other.key }] }, true);
      expect(answered.failed).toContainEqual(expect.stringContaining('no good cosignature by the key in WITNESSES'));
      await end();
      expect((await ask(true)).failed).toHaveLength(2);
      await serve();
      expect(await rows('SELECT FROM cosignature')).toHaveLength(before.length);
    });

    it('that has not cosigned for two days is what the doctor says is wrong, and no longer once it has', async () => {
      const doctor = async (): Promise<string> => {
        const said: string[] = [];
        const config = readConfig({ WITNESSES: `${url} ${witness.key}` });
        await doctorCommand(t.database, { config, say: (line) => said.push(line) }, clock);
        return said.join('\n');
      };
      await record(1);
      await leave({}, true);
      clock.advance({ hours: 47 });
      expect(await doctor()).not.toContain('Mill Lane: the seal of 2');
      clock.advance({ hours: 2 });
      expect(await doctor()).toMatch(/WRONG {2}.*Mill Lane: the seal of 2.* was not cosigned by witness\.example\/one/);
      await ask(true);
      expect(await doctor()).not.toContain('Mill Lane: the seal of 2');
    });

    it('whose folder is damaged signs nothing', async () => {
      await ask(true);
      for (const name of readdirSync(path.join(folder, 'seen'))) writeFileSync(path.join(folder, 'seen', name), 'not a seal');
      await record(1);
      expect((await ask(true)).failed).toContainEqual(expect.stringContaining('500'));
    });
  });
});
