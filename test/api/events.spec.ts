import { afterAll, beforeAll, expect, it } from '@jest/globals';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { listening as listen } from '../support/listening.js';
import { House, type Caller } from '../support/people.js';
import { roomReading } from '../support/payloads.js';

let t: TestApp;
let house: House;
let baker: Caller;
let url: string;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
  await t.app.listen(0, '127.0.0.1');
  url = `${await t.app.getUrl()}/api/v1/sites/${house.site}/events`;
});
afterAll(() => t.database.drop());

const record = () =>
  baker.post(`/sites/${house.site}/entries`, [house.entry({ kind: 'reading-taken', payload: roomReading(house.site) })]).expect(200);

async function listening(last?: string) {
  const heard = await listen(url, baker.token, last);
  const { status, headers } = heard.response;
  expect([status, headers.get('content-type'), headers.get('content-encoding')]).toEqual([200, 'text/event-stream', null]);
  return heard;
}

it('says how far the books are, and again when something was recorded, going on where a broken connection left off', async () => {
  const first = await listening();
  const size = await first.next();
  await record();
  const then = await first.next();
  expect(Number(then)).toBe(Number(size) + 1);
  await first.stop();
  const again = await listening(then);
  await record();
  expect(await again.next()).toBe(String(Number(then) + 1));
  await again.stop();
  const late = await listening(size);
  expect(await late.next()).toBe(String(Number(then) + 1));
  await late.stop();
});

it('says nothing to those who may not see the site', async () => {
  await request(t.server).get(`/api/v1/sites/${house.site}/events`).expect(401);
  const other = await House.found(t);
  await other.administrator.get(`/sites/${house.site}/events`).expect(422);
  const nobody = await house.signedOn('No Role', []);
  await nobody.get(`/sites/${house.site}/events`).expect(403);
});

it('keeps no shutdown waiting: who listens is let go', async () => {
  const held = await listening();
  await held.next();
  await t.app.close();
  expect(await held.next()).toBeUndefined();
});
