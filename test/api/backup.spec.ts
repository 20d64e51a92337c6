import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile, readdir, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import request from 'supertest';
import { backupCommand } from '../../apps/api/src/backup.command.js';
import { newKeyPair } from '../../apps/api/src/platform/backups/index.js';
import { readText } from '../../apps/api/src/platform/backups/read.js';
import { opened, sealed } from '../../apps/api/src/platform/backups/sealed-file.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected, migrate, prepareDatabase, readMigrations } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { createEmptyDatabase, createTestDatabase } from '../support/database.js';
import { roomReading } from '../support/payloads.js';
import { enrolledTablet, House, type Caller, type Tablet } from '../support/people.js';
import { restoreBackup, restoreInto } from '../support/restored.js';
import { mulberry } from '../support/seeded.js';
import { ownFolder } from '../support/folder.js';

const sha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

let t: TestApp;
let house: House;
let baker: Caller;
let tablet: Tablet;
let photo: Buffer;
let folder: string;
let dataDir: string;
let secret: string;
let recipient: string;
let file: string;
let said: string;

async function backUp(serviceUrl: string, into: string): Promise<{ code: number; file: string; said: string }> {
  const lines: string[] = [];
  const config = readConfig({ DATA_DIR: dataDir, BACKUP_DIR: into, BACKUP_TO: recipient });
  const code = await backupCommand(
    { serviceUrl },
    { config, words: [], say: (line) => lines.push(line) },
    new SettableClock('2026-11-25T04:00:00Z'),
  );
  return { code, said: lines.join('\n'), file: path.join(into, 'bakehouse-20261125T040000Z.age') };
}

beforeAll(async () => {
  folder = await ownFolder('backup-');
  dataDir = path.join(folder, 'data');
  ({ secret, recipient } = await newKeyPair());
  t = await startTestApp({ env: { DATA_DIR: dataDir } });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'The table');
  baker = await house.signedOn('Bo Baker', ['baker']);
  const entries = Array.from({ length: 30 }, (_, i) =>
    house.entry({ kind: 'reading-taken', payload: roomReading(house.site, String(20 + (i % 5))), words: { note: `note ${i}` } }),
  );
  await baker.post(`/sites/${house.site}/entries`, entries).expect(200);
  const noise = { type: 'gaussian' as const, mean: 128, sigma: 60 };
  photo = await sharp({ create: { width: 400, height: 400, channels: 3, background: '#c96', noise } })
    .jpeg()
    .toBuffer();
  await request(t.server)
    .put(`/api/v1/sites/${house.site}/photos/${sha256(photo)}`)
    .set('authorization', `Bearer ${baker.token}`)
    .set('content-type', 'image/jpeg')
    .send(photo)
    .expect(204);
  await baker.get(`/sites/${house.site}/seal`).expect(200);
  ({ file, said } = await backUp(t.database.serviceUrl, path.join(folder, 'backups')));
});
afterAll(async () => {
  await t.close();
  await rm(folder, { recursive: true });
});

describe('a backup', () => {
  it('says what it holds, what was verified, and what was not', () => {
    expect(said).toMatch(/ {2}Mill Lane: 30 entries, the newest of 2026-11-25T03:40:00\.000Z\n/);
    expect(said).toMatch(/\nVerified: .*\nNot verified: .*private key/);
  });

  it('is readable for its owner alone, beside a text that names nobody and gives its hash', async () => {
    expect((await stat(file)).mode & 0o777).toBe(0o600);
    expect((await readdir(path.dirname(file))).sort()).toEqual(['bakehouse-20261125T040000Z.age', 'bakehouse-20261125T040000Z.json']);
    const beside = await readFile(file.replace(/age$/, 'json'), 'utf8');
    expect(beside).not.toContain('Mill Lane');
    expect(JSON.parse(beside)).toMatchObject({ sha256: sha256(await readFile(file)), bytes: (await stat(file)).size });
  });

  it('comes back with its photos, its key for seals and its tablets, and with nobody signed on', async () => {
    const restored = await restoreBackup(file, secret, folder);
    expect([restored.code, restored.said]).toEqual([
      0,
      expect.stringContaining('everything that was recorded by 2026-11-25T04:00:00.000Z'),
    ]);
    const key = (at: string): Promise<string> => readFile(path.join(at, 'keys', 'seal.key'), 'utf8');
    expect(await key(restored.dataDir)).toBe(await key(dataDir));
    const again = await startTestApp({ env: { DATA_DIR: restored.dataDir }, database: restored.database });
    const shown = (token: string) =>
      request(again.server)
        .get(`/api/v1/sites/${house.site}/photos/${sha256(photo)}`)
        .set('authorization', `Bearer ${token}`);
    expect((await shown(baker.token)).status).toBe(401);
    const { body } = await request(again.server)
      .post('/api/v1/sign-on')
      .set('x-device-token', tablet.token)
      .send({ person: baker.person, pin: baker.pin })
      .expect(200);
    expect(Buffer.compare((await shown(String(body.token)).expect(200)).body, photo)).toBe(0);
    await again.close();
  });

  it('can be tried without restoring anything', async () => {
    const tried = await restoreBackup(file, secret, folder, '--check');
    expect([tried.code, tried.said]).toEqual([0, expect.stringMatching(/The key opens it, and it is whole\. Nothing was restored\.$/)]);
    await untouched(tried.database.ownerUrl);
    await tried.database.drop();
  });
});

/** No table at all. */
const untouched = (ownerUrl: string): Promise<void> =>
  connected(ownerUrl, async (owner) => {
    const { rows } = await owner.query("SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace");
    expect(rows).toEqual([]);
  });

describe('what is not restored', () => {
  const refused = async (given: string, key: string, words: RegExp): Promise<void> => {
    const database = await createEmptyDatabase();
    await expect(restoreInto(database, given, key, folder)).rejects.toThrow(words);
    await untouched(database.ownerUrl);
    await database.drop();
  };
  const changed = async (change: (bytes: Buffer) => Buffer): Promise<string> => {
    const other = path.join(folder, 'changed.age');
    await writeFile(other, change(await readFile(file)));
    return other;
  };

  it('a backup that was encrypted to another key', async () => {
    await refused(file, (await newKeyPair()).secret, /^This key does not open this backup.*Nothing was changed\.$/);
  });

  it('one that is cut off, wherever', async () => {
    const { size } = await stat(file);
    expect(size).toBeGreaterThan(65_552); // more than one part of age's stream: a cut between parts loses whole ones
    const [header] = /^[^]*?\n--- [^\n]+\n/.exec(await readFile(file, 'latin1')) ?? [''];
    const partEnds = header.length + 16 + 65_552;
    for (const length of [0, 1, header.length, header.length + 16, partEnds, partEnds + 1, size - 17, size - 1])
      await refused(
        await changed((bytes) => bytes.subarray(0, length)),
        secret,
        /^This file is cut off or was changed.*Nothing was changed\.$/,
      );
  });

  it('one of which a byte was changed, or to which something was added', async () => {
    const random = mulberry(20_261_127);
    const { size } = await stat(file);
    for (let i = 0; i < 12; i += 1) {
      const at = Math.floor(random() * size);
      const other = await changed((bytes) => (bytes.writeUInt8(bytes.readUInt8(at) ^ 1, at), bytes));
      await refused(other, secret, /Nothing was changed\.$/);
    }
    await refused(await changed((bytes) => Buffer.concat([bytes, Buffer.alloc(1)])), secret, /Nothing was changed\.$/);
  });

  it('one whose text is not whole, though it was encrypted as it is: a row, a table or the end is missing, or something else is in its place', async () => {
    const parts: Uint8Array[] = [];
    for await (const part of opened(createReadStream(file), secret)) parts.push(part);
    const text = Buffer.concat(parts).toString('utf8').trimEnd().split('\n');
    const read = (lines: readonly string[]) => readText(bytesOf(`${lines.join('\n')}\n`), {});
    expect((await read(text)).books.map(({ entries }) => entries)).toContain(30);
    const entries = text.findIndex((line) => line.startsWith('{"table":"entry",'));
    const photos = text.findIndex((line) => line.startsWith('{"table":"photo",'));
    const [third = '', fourth = ''] = text.slice(entries + 3);
    const without = (from: number, count = 1): string[] => text.toSpliced(from, count);
    for (const lines of [
      without(entries + 3),
      text.toSpliced(entries + 3, 2, fourth, third),
      text.toSpliced(entries + 3, 1, third.replace(/[0-9a-f]{8}/, '00000000')),
      without(photos, 3),
      text.with(photos + 1, (text[photos + 1] ?? '').replace('image/jpeg', 'image/jpeh')),
      text.slice(0, -1),
      [...text, text.at(-1) ?? ''],
      text.with(-1, (text.at(-1) ?? '').replace(/"root":"./, '"root":"z')),
      text.with(-1, (text.at(-1) ?? '').replace('"entries":30', '"entries":31')),
    ]) {
      expect(lines).not.toEqual(text);
      await expect(read(lines)).rejects.toThrow();
    }
  });

  it('one into a place where records are', async () => {
    await expect(restoreInto(t.database, file, secret, folder)).rejects.toThrow(/^There are records here already/);
  });

  it('one of a later form, and one with a migration that is not known here', async () => {
    const of = async (head: object): Promise<string> => {
      const later = path.join(folder, 'later.age');
      const text = `${JSON.stringify(head)}\n${JSON.stringify({ end: 'whole', tables: 0, books: [] })}\n`;
      const parts: Uint8Array[] = [];
      for await (const part of sealed(lines(text), [recipient])) parts.push(part);
      await writeFile(later, Buffer.concat(parts));
      return later;
    };
    await refused(await of({ bakehouseBackup: 2 }), secret, /newer version of this program\. Restore it with that one/);
    const migrations = [{ name: '20991231000000_later', checksum: 'a'.repeat(64) }];
    const head = { bakehouseBackup: 1, at: '2026-11-25T04:00:00.000Z', migrations, sealKey: null };
    await refused(await of(head), secret, /newer version of this program: it knows 20991231000000_later/);
  });
});

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield Buffer.from(text);
}

async function* lines(text: string): AsyncGenerator<string> {
  yield text;
}

describe('a backup of an earlier version', () => {
  it('is loaded into the tables of its time, which are then brought up to date', async () => {
    const last = '20261128010000_photo_by_device';
    const early = await createEmptyDatabase();
    const names = (await readMigrations()).map(({ name }) => name);
    await prepareDatabase(early.ownerUrl, undefined, new Set(names.filter((name) => name < last)));
    const [organisation, book] = ['018f0000-0000-7000-8000-000000000001', '018f0000-0000-7000-8000-000000000002'];
    await connected(early.ownerUrl, async (owner) => {
      await owner.query("INSERT INTO organisation (id, name, created_at) VALUES ($1, 'House', now())", [organisation]);
      await owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'organisation', 'House', 'Europe/London')", [
        organisation,
        book,
      ]);
      await owner.query(
        "INSERT INTO photo (organisation, book, id, media_type, bytes, by, at) VALUES ($1, $2, $3, 'image/jpeg', $4, $1, now())",
        [organisation, book, sha256(photo), photo],
      );
    });
    const backup = await backUp(early.serviceUrl, path.join(folder, 'early'));
    await early.drop();
    const { code, database } = await restoreBackup(backup.file, secret, folder);
    expect(code).toBe(0);
    await connected(database.ownerUrl, async (owner) => {
      expect(await migrate(owner)).toEqual([]);
      expect((await owner.query('SELECT id, device FROM photo')).rows).toEqual([{ id: sha256(photo), device: null }]);
    });
    await database.drop();
  });

  it('does not go into an empty database whose tables are newer', async () => {
    const [early, here] = [await createEmptyDatabase(), await createTestDatabase()];
    const names = (await readMigrations()).map(({ name }) => name);
    await prepareDatabase(early.ownerUrl, undefined, new Set(names.slice(0, -1)));
    const { file: backup } = await backUp(early.serviceUrl, path.join(folder, 'earlier'));
    await early.drop();
    await expect(restoreInto(here, backup, secret, folder)).rejects.toThrow(/its tables are newer than the backup/);
    await here.drop();
  });
});

describe('records that were damaged before', () => {
  it('are in the backup as they stand, and it says so', async () => {
    const { database } = await restoreBackup(file, secret, folder);
    await connected(database.ownerUrl, async (owner) => {
      await owner.query('ALTER TABLE entry DISABLE TRIGGER USER');
      await owner.query("UPDATE entry SET leaf = sha256('another') WHERE seq = 3 AND book = $1", [house.site]);
      await owner.query('ALTER TABLE entry ENABLE TRIGGER USER');
    });
    const backup = await backUp(database.serviceUrl, path.join(folder, 'damaged'));
    expect([backup.code, backup.said]).toEqual([1, expect.stringContaining('Mill Lane is not what its head tells')]);
    await database.drop();
    const restored = await restoreBackup(backup.file, secret, folder);
    expect([restored.code, restored.said]).toEqual([2, expect.stringContaining('evidence was changed')]);
    await restored.database.drop();
  });
});
