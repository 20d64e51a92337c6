import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kinds } from '@bakehouse/records';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House } from '../support/people.js';

describe('health', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp({ instance: 'this-one', env: { DATA_DIR: tmpdir(), LEAST_FREE_MB: '1' } });
  });
  afterAll(() => t.close());
  const ready = async (): Promise<[number, unknown]> => {
    const { status, body } = await request(t.server).get('/api/v1/health/ready');
    return [status, body];
  };

  it('says which process answers', async () => {
    expect((await request(t.server).get('/api/v1/health')).body).toEqual({
      status: 'alive',
      service: 'bakehouse-ledger',
      instance: 'this-one',
      database: 'answers',
    });
  });

  it('is ready with a database that is up to date', async () => {
    expect(await ready()).toEqual([
      200,
      {
        status: 'ready',
        database: 'answers',
        migrations: 'up-to-date',
        disk: 'has-room',
        backup: { state: 'not-set-up', newest: null },
        says: null,
      },
    ]);
  });

  it('tells of which moment the newest backup is, and when the next one is overdue', async () => {
    const folder = await mkdtemp(path.join(tmpdir(), 'health-'));
    const clock = new SettableClock('2026-11-25T03:40:00Z');
    const backed = await startTestApp({ clock, env: { BACKUP_DIR: folder } });
    const told = async (): Promise<unknown> => (await request(backed.server).get('/api/v1/health/ready')).body.backup;
    expect(await told()).toEqual({ state: 'none', newest: null });
    for (const day of ['23', '24']) await writeFile(path.join(folder, `bakehouse-202611${day}T030000Z.age`), '');
    expect(await told()).toEqual({ state: 'recent', newest: '2026-11-24T03:00:00.000Z' });
    clock.set('2026-11-25T15:00:01Z');
    expect(await told()).toEqual({ state: 'overdue', newest: '2026-11-24T03:00:00.000Z' });
    await backed.close();
    await rm(folder, { recursive: true });
  });

  it('is not ready while a migration is missing', async () => {
    await connected(t.database.ownerUrl, async (owner) => {
      await owner.query("UPDATE _prisma_migrations SET rolled_back_at = now() WHERE migration_name LIKE '%roles_and_organisation'");
      expect(await ready()).toEqual([
        503,
        expect.objectContaining({ status: 'not-ready', migrations: 'missing', says: expect.stringContaining('Start the service again') }),
      ]);
      await owner.query('UPDATE _prisma_migrations SET rolled_back_at = NULL');
    });
  });

  it('is alive but not ready without its database', async () => {
    const alone = await startTestApp();
    await alone.database.drop();
    const { status: living, body: told } = await request(alone.server).get('/api/v1/health');
    expect([living, told.database]).toEqual([200, 'does-not-answer']);
    const { status, body } = await request(alone.server).get('/api/v1/health/ready');
    expect([status, body]).toEqual([
      503,
      expect.objectContaining({
        status: 'not-ready',
        database: 'does-not-answer',
        migrations: 'unknown',
        says: expect.stringContaining('start it'),
      }),
    ]);
    await alone.app.close();
  });

  it('is not ready without room on the disk, and a record that finds none is told so', async () => {
    const full = await startTestApp({ env: { DATA_DIR: tmpdir(), LEAST_FREE_MB: '1000000000' } });
    const { status, body } = await request(full.server).get('/api/v1/health/ready');
    expect([status, body]).toEqual([503, expect.objectContaining({ disk: 'full', says: expect.stringContaining('Free space') })]);
    const house = await House.found(full);
    const baker = await house.signedOn('Bo Baker', ['baker']);
    await connected(full.database.ownerUrl, async (owner) => {
      await owner.query(`CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
        RAISE EXCEPTION 'could not extend file' USING ERRCODE = 'disk_full'; END $$`);
      await owner.query('CREATE TRIGGER no_room BEFORE INSERT ON entry FOR EACH ROW EXECUTE FUNCTION no_room()');
    });
    const sent = await baker.post(`/sites/${house.site}/entries`, [
      house.entry({ kind: 'reading-taken', payload: roomReading(house.site, '21') }),
    ]);
    expect([sent.status, sent.body.type]).toEqual([503, expect.stringMatching(/disk-full$/)]);
    await full.close();
  });
});

describe('the description of the API', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp();
  });
  afterAll(() => t.close());

  it('is an OpenAPI 3.1 document in which every reference leads somewhere', async () => {
    const { body, text } = await request(t.server).get('/api/v1/openapi.json');
    expect(body.openapi).toBe('3.1.0');
    expect(body.paths['/api/v1/health/ready'].get.responses.default.content).toEqual({
      'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
    });
    const named = [...text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(([, name]) => name);
    expect(named).toContain('Problem');
    expect(named.filter((name) => !(String(name) in body.components.schemas))).toEqual([]);
  });

  it('has a page that loads nothing from elsewhere', async () => {
    const page = await request(t.server).get('/api/docs');
    const files = [...page.text.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, file]) => new URL(file ?? '', 'http://here/api/docs'));
    expect(files.filter((file) => file.host !== 'here')).toEqual([]);
    for (const file of files) expect([file.pathname, (await request(t.server).get(file.pathname)).status]).toEqual([file.pathname, 200]);
  });

  it('has on its page every operation, kind and schema, each with who may, and no link that leads nowhere', async () => {
    const [{ body }, { text }] = await Promise.all([request(t.server).get('/api/v1/openapi.json'), request(t.server).get('/api/docs')]);
    const operations = Object.values<Record<string, { operationId: string; summary?: string; 'x-who-may'?: string }>>(body.paths).flatMap(
      (item) => Object.values(item),
    );
    const ids = new Set([...text.matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id));
    expect(operations.filter((o) => !ids.has(o.operationId) || !o.summary || !o['x-who-may']).map((o) => o.operationId)).toEqual([]);
    expect(Object.keys(body.components.schemas).filter((name) => !ids.has(`schema-${name}`))).toEqual([]);
    expect([...text.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id).filter((id) => !ids.has(id))).toEqual([]);
    expect(new Set(operations.map((o) => o.operationId)).size).toBe(operations.length);
    expect(text).toContain('food-safety');
  });

  it('says of every kind whether it is signed, who may record it, and which words it takes', async () => {
    const { body } = await request(t.server).get('/api/v1/openapi.json');
    for (const kind of kinds) {
      expect(body.components.schemas[`Entry.${kind.name}`]['x-entry']).toMatchObject({
        signed: kind.signed,
        permission: kind.permission,
        words: ['reason', ...(kind.words ?? [])],
      });
    }
  });
});
