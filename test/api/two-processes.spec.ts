import type { Server } from 'node:http';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { createApp } from '../../apps/api/src/app.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { quickPins, startTestApp, type TestApp } from '../support/app.js';
import { listening } from '../support/listening.js';
import { roomReading } from '../support/payloads.js';
import { Caller, House } from '../support/people.js';

/** Two whole applications on one database, as behind a balancer that asks either. */
describe('a service of two processes', () => {
  let t: TestApp;
  let house: House;
  let other: NestFastifyApplication;
  let there: Server;
  beforeAll(async () => {
    t = await startTestApp();
    house = await House.found(t);
    const config = readConfig({ LOG_LEVEL: 'silent', DATABASE_POOL: '5', SEED_DEMO: 'no' });
    other = await createApp({ config, serviceUrl: t.database.serviceUrl, clock: t.clock, webFolder: '/nowhere', pinCost: quickPins });
    there = other.getHttpServer();
    await Promise.all([t.app.listen(0, '127.0.0.1'), other.listen(0, '127.0.0.1')]);
  });
  afterAll(async () => {
    await other.close();
    await t.close();
  });

  const at = (caller: Caller): Caller => new Caller(there, caller.person, caller.pin, caller.token);
  const reading = () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) });
  const entries = () => `/sites/${house.site}/entries`;

  it('records through both at once: each entry once, in one order without gaps, and known to the other', async () => {
    const baker = await house.signedOn('Bo Baker', ['baker']);
    const mine = Array.from({ length: 40 }, reading);
    const answers = await Promise.all(
      mine.flatMap((e) => [baker.post(entries(), [e]).expect(200), at(baker).post(entries(), [e, reading()]).expect(200)]),
    );
    const results = answers.flatMap((a) => a.body as { id: string; as: string; receipt: { seq: number } }[]); // the route's contract
    const bySeq = new Map(results.map((r) => [r.receipt.seq, r.id]));
    expect(results.filter((r) => r.as === 'recorded')).toHaveLength(80);
    expect(bySeq.size).toBe(80);
    expect(Math.max(...bySeq.keys()) - Math.min(...bySeq.keys())).toBe(79);
    const nights = await Promise.all([baker, at(baker)].map((c) => c.get(`/sites/${house.site}/night`).expect(200)));
    expect(nights[0]?.body).toEqual(nights[1]?.body);
  });

  it('tells who listens at one of what was recorded at the other', async () => {
    const baker = await house.signedOn('Cy Baker', ['baker']);
    const heard = await listening(`${await other.getUrl()}/api/v1/sites/${house.site}/events`, baker.token);
    const size = Number(await heard.next());
    await baker.post(entries(), [reading()]).expect(200);
    expect(Number(await heard.next())).toBe(size + 1);
    await heard.stop();
  });

  it('knows a sign-on of either, and ends it for both', async () => {
    const baker = await house.signedOn('Di Baker', ['baker']);
    await at(baker).get('/me').expect(200);
    await at(baker).post('/sign-off').expect(204);
    await baker.get('/me').expect(401);
  });

  it('counts wrong PINs together: two processes are no more tries', async () => {
    const { person } = await house.join('Ed Baker', ['baker']);
    const guess = (server: Server) =>
      request(server).post('/api/v1/sign-on').send({ organisation: house.organisation, person, pin: '502817' });
    const statuses: number[] = [];
    for (const server of [t.server, there, t.server, there]) statuses.push((await guess(server)).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });

  it('gives one signature once, whichever process is asked to take it', async () => {
    const lead = await house.signedOn('Fay Lead', ['food-safety-lead', 'administrator']);
    const joins = await lead.signed(house.entry({ kind: 'person-joined', payload: {}, words: { name: 'Gus' } }));
    const answers = await Promise.all([lead, at(lead)].map((c) => c.post('/organisation/entries', [joins]).expect(200)));
    expect(answers.map((a) => a.body[0].as).sort()).toEqual(['already-recorded', 'recorded']);
  });
});
