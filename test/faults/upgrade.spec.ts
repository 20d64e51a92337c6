import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { connected, prepareDatabase } from '../../apps/api/src/platform/database/index.js';
import { migrate, migrationsFolder, readMigrations } from '../../apps/api/src/platform/database/migrations.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { createEmptyDatabase, type TestDatabase } from '../support/database.js';
import { enrolledTablet, House } from '../support/people.js';
import { roomReading } from '../support/payloads.js';

/** The last migration of the last release: the tables that its program made lack what came after it. */
const lastRelease = '20261128120000_first_load_of_a_bake';
/** What the program of now asks with every record: without it no ledger could be made here. */
const askedAlways = ['20261128180000_place_hold', '20261129110000_past_life'];
const waiting = 2_000;
const aSending = 200;

let since: readonly string[];
let database: TestDatabase;
let t: TestApp;
let house: House;
let token: string;
let saved: readonly object[];
beforeAll(async () => {
  database = await createEmptyDatabase();
  const names = (await readMigrations()).map(({ name }) => name);
  since = names.filter((name) => name > lastRelease && !askedAlways.includes(name));
  await prepareDatabase(database.ownerUrl, undefined, new Set(names.filter((name) => !since.includes(name))));
  const before = await startTestApp({ database });
  house = await House.found(before);
  const baker = await house.signedOn('Bo Baker', ['baker']);
  await house.recordReadings(20, baker);
  const tablet = await enrolledTablet(house, 'Bench');
  token = (await tablet.signOn(baker.person, baker.pin)).token;
  saved = Array.from({ length: waiting }, () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) }));
  await before.app.close();
});
afterAll(() => t.close());

describe('a ledger of the last release', () => {
  it('is brought up to date at the start, and is as it was', async () => {
    const { applied } = await prepareDatabase(database.ownerUrl);
    expect([applied.length > 0, applied]).toEqual([true, since]);
    t = await startTestApp({ database });
    const said: string[] = [];
    const config = { SEAL_KEY: undefined, DATA_DIR: '/nowhere' };
    expect(await ledgerCommand(database, { words: ['verify'], say: (line) => said.push(line), config })).toBe(0);
    expect(said.join('\n')).toMatch(/Mill Lane: 20 entries[^]*No faults found/);
  });

  it('takes what a tablet saved while it was of that release: 2,000 entries, each once, though the first answers were lost', async () => {
    const send = (entries: readonly object[]) =>
      request(t.server)
        .post(`/api/v1/sites/${house.site}/entries`)
        .set('authorization', `Bearer ${token}`)
        .send([...entries])
        .expect(200);
    await send(saved.slice(0, aSending));
    for (let at = 0; at < waiting; at += aSending) {
      const { body } = await send(saved.slice(at, at + aSending));
      const as: readonly string[] = body.map((result: { as: string }) => result.as);
      expect(as.filter((one) => one !== (at === 0 ? 'already-recorded' : 'recorded'))).toEqual([]);
    }
    await connected(database.ownerUrl, async (owner) => {
      const { rows } = await owner.query<{ size: number }>('SELECT size FROM book WHERE id = $1', [house.site]);
      expect(rows[0]?.size).toBe(20 + waiting);
    });
  });

  it('is refused by the program of before once it is up to date, with a sentence, and nothing in it is changed', async () => {
    const folder = await mkdtemp(path.join(tmpdir(), 'migrations-'));
    await cp(migrationsFolder, folder, { recursive: true, filter: (from) => !since.some((name) => from.includes(name)) });
    await connected(database.ownerUrl, async (owner) => {
      await expect(migrate(owner, folder)).rejects.toThrow(
        /newer than this program: it has had the migration \d+_\w+\. Start the newer program/,
      );
    });
    await rm(folder, { recursive: true });
    expect((await prepareDatabase(database.ownerUrl)).applied).toEqual([]);
  });
});
