import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { createOrganisation } from '../../apps/api/src/platform/access/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
});
afterAll(() => t.close());

interface Code {
  code: string;
  codeWithOrganisation: string;
  expiresAt: string;
}
const newCode = async (): Promise<Code> =>
  (await house.administrator.post('/devices/enrolment-codes', { site: house.site, currentPin: house.administrator.pin }).expect(201)).body;
const enrol = (code: string, name = 'Table'): request.Test => request(t.server).post('/api/v1/devices/enrol').send({ code, name });

describe('a code for a tablet', () => {
  it('is typed as it stands or without its dash, and gives a token and a cookie that stays', async () => {
    const { code, expiresAt } = await newCode();
    expect(code).toMatch(/^[A-HJKMNP-TV-Z2-9]{5}-[A-HJKMNP-TV-Z2-9]{5}$/);
    expect(expiresAt).toBe('2026-11-25T03:50:00.000Z');
    const { body, headers } = await enrol(code.toLowerCase().replace('-', ' '), ' Table by the mixer ').expect(201);
    expect(body.device).toMatchObject({ name: 'Table by the mixer', site: house.site });
    expect(headers['set-cookie']).toEqual([`bakehouse_device=${body.token}; Max-Age=34560000; Path=/api; HttpOnly; SameSite=Strict`]);
    const people = await request(t.server).get('/api/v1/sign-on/people').set('cookie', `bakehouse_device=${body.token}`).expect(200);
    expect(people.body.device).toEqual(body.device);
  });

  it('opens once', async () => {
    const { codeWithOrganisation } = await newCode();
    const statuses = await Promise.all([1, 2, 3].map(async () => (await enrol(codeWithOrganisation)).status));
    expect(statuses.toSorted()).toEqual([201, 422, 422]);
  });

  it('opens for ten minutes', async () => {
    const { codeWithOrganisation } = await newCode();
    clock.advance({ minutes: 10 });
    expect((await enrol(codeWithOrganisation).expect(422)).body).toMatchObject({
      field: 'code',
      title: 'The code is not valid',
    });
  });

  it('opens in its own house only', async () => {
    const other = await House.found(t);
    const { codeWithOrganisation, code } = await newCode();
    await enrol(codeWithOrganisation.replace(house.organisation, other.organisation)).expect(422);
    expect((await enrol(code).expect(422)).body.field).toBe('organisation'); // two houses now: which?
    await enrol(codeWithOrganisation).expect(201);
  });

  it('is made only by somebody who looks after that site', async () => {
    const baker = await house.signedOn('Bea Kerr', ['baker']);
    await baker.post('/devices/enrolment-codes', { site: house.site, currentPin: baker.pin }).expect(403);
    await baker.get('/devices').expect(403);
    const { body } = await house.administrator.get('/devices').expect(200);
    await baker.post(`/devices/${body[0].id}/revocation`, { currentPin: baker.pin }).expect(403);
    const manager = await house.signedOn('Max Lowe', ['manager'], house.site);
    await manager.post('/devices/enrolment-codes', { site: house.site, currentPin: manager.pin }).expect(201);
    expect((await manager.get('/devices').expect(200)).body).toHaveLength(body.length);
  });

  it('is asked for at most twenty times a minute', async () => {
    const statuses = [];
    for (let i = 0; i < 21; i += 1) statuses.push((await enrol(`${house.organisation}.ABCDE${i}`)).status);
    expect(statuses.at(-1)).toBe(429);
  });
});

describe('a new business', () => {
  it('is made whole or not at all, and not with a weak PIN', async () => {
    const make = (pin: string, zone: string): Promise<unknown> =>
      connected(t.database.ownerUrl, (owner) =>
        createOrganisation(owner, { name: 'Half', sites: [{ name: 'Mill Lane', zone }], administrator: { name: 'Ada\u0000', pin } }, clock),
      );
    const count = (): Promise<unknown> =>
      connected(t.database.ownerUrl, async (owner) => (await owner.query('SELECT count(*) FROM organisation')).rows);
    const before = await count();
    await expect(make('1234', 'Europe/London')).rejects.toThrow('too easy to guess');
    await expect(make('739158', 'Europe/London')).rejects.toThrow('The first administrator could not be recorded'); // a NUL in the name cannot be stored
    expect(await count()).toEqual(before);
  });
});
