import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { ClientBase } from 'pg';
import request, { type Response } from 'supertest';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House, type Caller } from '../support/people.js';
import { verified } from '../support/verified.js';

let t: TestApp;
let house: House;
let baker: Caller;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
});
afterAll(() => t.close());

describe('a database that ends connections', () => {
  it('is told as not ready just now, and what was sent is recorded once when it is sent again', async () => {
    const sent = Array.from({ length: 60 }, (_, i) => house.entry({ kind: 'reading-taken', payload: roomReading(house.site, String(i)) }));
    const service = "FROM pg_stat_activity WHERE datname = current_database() AND usename = 'bakehouse_service'";
    const watched = (holder: ClientBase) =>
      connected(t.database.ownerUrl, async (watcher) => {
        await holder.query('BEGIN');
        await holder.query('SELECT 1 FROM book WHERE id = $1 FOR UPDATE', [house.site]); // so that a commit waits, and is ended while it does
        const asked = Promise.all(sent.map((one) => baker.post(`/sites/${house.site}/entries`, [one])));
        for (let waits = 0; waits === 0;) waits = (await watcher.query(`SELECT 1 ${service} AND wait_event_type = 'Lock'`)).rowCount ?? 0;
        await watcher.query(`SELECT pg_terminate_backend(pid) ${service}`);
        await holder.query('COMMIT');
        const responses = await asked;
        responses.filter((r) => r.status !== 200).forEach(expectAway);
        return responses.map((r) => r.status);
      });
    const statuses = await connected(t.database.ownerUrl, watched);
    expect(statuses).toContain(503);
    const { body } = await baker.post(`/sites/${house.site}/entries`, sent).expect(200);
    expect(body.map((r: { as: string }) => r.as)).toEqual(sent.map(() => expect.stringMatching(/recorded$/)));
    expect((await verified(t, house)).faults).toEqual([]);
  });

  it('is told as not ready just now by a read through the generated client, too', async () => {
    const service = "FROM pg_stat_activity WHERE datname = current_database() AND usename = 'bakehouse_service'";
    const watched = (holder: ClientBase) =>
      connected(t.database.ownerUrl, async (watcher) => {
        await holder.query('BEGIN');
        await holder.query('LOCK TABLE photo IN ACCESS EXCLUSIVE MODE'); // so that the read waits, and is ended while it does
        const asked = Promise.resolve(baker.get(`/sites/${house.site}/photos/${'0'.repeat(64)}`));
        for (let waits = 0; waits === 0;) waits = (await watcher.query(`SELECT 1 ${service} AND wait_event_type = 'Lock'`)).rowCount ?? 0;
        await watcher.query(`SELECT pg_terminate_backend(pid) ${service}`);
        await holder.query('COMMIT');
        return asked;
      });
    expectAway(await connected(t.database.ownerUrl, watched));
  });

  it('ends one that asks nothing just then, and no process with it: the next query says so', async () => {
    const failed = connected(t.database.serviceUrl, async (idle) => {
      const { rows } = await idle.query<{ pid: number }>('SELECT pg_backend_pid() AS pid');
      const ended = new Promise((resolve) => {
        idle.once('end', resolve); // not events.once, which would listen for its error too
      });
      await connected(t.database.ownerUrl, (owner) => owner.query('SELECT pg_terminate_backend($1)', [rows[0]?.pid]));
      await ended;
      await idle.query('SELECT 1');
    });
    await expect(failed).rejects.toThrow(/connection error/);
  });

  it('is away, and the service says so; it is there again, and so is the service', async () => {
    const name = new URL(t.database.ownerUrl).pathname.slice(1);
    const elsewhere = t.database.ownerUrl.replace(`/${name}`, '/postgres');
    const state = async () => {
      const [health, ready] = [await request(t.server).get('/api/v1/health'), await request(t.server).get('/api/v1/health/ready')];
      return [health.status, health.body.database, ready.status, ready.body.status];
    };
    await connected(elsewhere, async (admin) => {
      await admin.query(`ALTER DATABASE ${admin.escapeIdentifier(name)} ALLOW_CONNECTIONS false`);
      await admin.query('SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1', [name]);
      expect(await state()).toEqual([200, 'does-not-answer', 503, 'not-ready']);
      expectAway(await baker.get(`/sites/${house.site}/night`));
      await admin.query(`ALTER DATABASE ${admin.escapeIdentifier(name)} ALLOW_CONNECTIONS true`);
    });
    expect(await state()).toEqual([200, 'answers', 200, 'ready']);
    await baker.get(`/sites/${house.site}/night`).expect(200);
  });
});

function expectAway({ status, body, headers }: Response): void {
  expect([status, headers['content-type'], body.detail]).toEqual([
    503,
    'application/problem+json; charset=utf-8',
    expect.stringContaining('try again'),
  ]);
}
