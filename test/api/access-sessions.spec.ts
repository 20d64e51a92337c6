import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, signedOn, type Caller, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let tablet: Tablet;
beforeAll(async () => {
  t = await startTestApp({ clock, env: { TAPPED_IDLE_MINUTES: '30', PIN_IDLE_MINUTES: '15', SESSION_MINUTES: '720' } });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Table');
});
afterAll(() => t.close());

const problem = async (caller: Caller): Promise<string | undefined> => (await caller.get('/me')).body.type?.split('/').at(-1);
const whyEnded = (session: unknown): Promise<unknown> =>
  connected(t.database.ownerUrl, async (owner) => {
    const { rows } = await owner.query<{ ended_why: string | null }>('SELECT ended_why FROM session WHERE id = $1', [session]);
    return rows[0]?.ended_why;
  });
const sessionOf = async (caller: Caller): Promise<unknown> => (await caller.get('/me').expect(200)).body.session;

describe('a session ends', () => {
  it('after a quarter of an hour without a touch where a PIN opened it, half an hour where a tap did', async () => {
    const { person, pin } = await house.join('Ivy Nash', ['baker']);
    const [strong, tapped] = [await tablet.signOn(person, pin), await tablet.tap(person)];
    const session = await sessionOf(strong);
    clock.advance({ minutes: 14 });
    for (const one of [strong, tapped]) expect(await problem(one)).toBeUndefined();
    clock.advance({ minutes: 15 });
    expect(await problem(strong)).toBe('session-ended');
    expect(await problem(tapped)).toBeUndefined();
    clock.advance({ minutes: 30 });
    expect(await problem(tapped)).toBe('session-ended');
    expect(await whyEnded(session)).toBe('idle');
    await house.again();
  });

  it('after twelve hours however busy', async () => {
    const { person, pin } = await house.join('Jo Orme', ['baker']);
    const busy = await tablet.signOn(person, pin);
    const session = await sessionOf(busy);
    for (let quarter = 0; quarter < 51; quarter += 1) {
      clock.advance({ minutes: 14 });
      await busy.get('/me').expect(200);
    }
    clock.advance({ minutes: 6 });
    expect(await problem(busy)).toBe('session-ended');
    expect(await whyEnded(session)).toBe('too-long');
    await house.again();
  });

  it('at signing off, and signing off twice does no harm', async () => {
    const baker = await house.signedOn('Kay Pugh', ['baker']);
    const off = await baker.post('/sign-off').expect(204);
    expect(off.headers['set-cookie']).toEqual(['bakehouse_session=; Max-Age=0; Path=/api; HttpOnly; SameSite=Strict']);
    expect(await problem(baker)).toBe('session-ended');
    await baker.post('/sign-off').expect(204);
    await request(t.server).post('/api/v1/sign-off').expect(204);
  });

  it('at once when somebody leaves, who then signs on no more', async () => {
    const { person, pin } = await house.join('Len Quill', ['baker']);
    const [strong, tapped] = [await tablet.signOn(person, pin), await tablet.tap(person)];
    await house.decide({ kind: 'person-left', payload: { person } });
    for (const one of [strong, tapped]) expect(await problem(one)).toBe('session-ended');
    await tablet.post('/sign-on', { person, pin }).expect(401);
    await tablet.post('/sign-on/tap', { person }).expect(422);
    await house.administrator.post(`/people/${person}/pin`, { pin: '730914', currentPin: house.administrator.pin }).expect(422);
  });

  it('everywhere else when the PIN changes', async () => {
    const { person, pin } = await house.join('Mia Rudd', ['baker']);
    const [here, elsewhere] = [await tablet.signOn(person, pin), await tablet.signOn(person, pin)];
    await here.post(`/people/${person}/pin`, { pin: '730914', currentPin: pin }).expect(204);
    expect(await problem(here)).toBeUndefined();
    expect(await problem(elsewhere)).toBe('session-ended');
    await tablet.post('/sign-on', { person, pin }).expect(401);
    await tablet.post('/sign-on', { person, pin: '730914' }).expect(200);
  });
});

describe('what a session may do', () => {
  it('changes with the next request when a role is given or taken away, or has run out', async () => {
    const { person, pin } = await house.join('Nat Sims', ['viewer']);
    const them = await tablet.signOn(person, pin);
    const may = async (): Promise<string[]> =>
      (await them.get('/me').expect(200)).body.sites.flatMap((s: { permissions: string[] }) => s.permissions);
    expect(await may()).toEqual(['view']);
    const [given = ''] = await house.decide({ kind: 'role-given', payload: { person, role: 'baker', site: house.site, until: null } });
    expect(await may()).toEqual(['view', 'record', 'decide.goods']);
    await house.decide({ kind: 'role-taken-away', payload: { given } });
    expect(await may()).toEqual(['view']);
    await house.decide({ kind: 'role-given', payload: { person, role: 'baker', site: null, until: '2026-12-24T00:00:00Z' } });
    expect(await may()).toContain('record');
    const standing = clock.now();
    clock.set('2026-12-24T00:00:00Z');
    const then = await tablet.signOn(person, pin);
    expect((await then.get('/me').expect(200)).body.permissions).toEqual(['view']);
    clock.set(standing);
    await house.again();
  });

  it('is nothing without roles', async () => {
    const { person, pin } = await house.join('Ola Tew', []);
    const them = await tablet.signOn(person, pin);
    expect((await them.get('/me').expect(200)).body).toMatchObject({ permissions: [], sites: [] });
    await them.post(`/sites/${house.site}/entries`, [{}]).expect(403);
  });
});

describe('setting a PIN', () => {
  it('takes the present one, or somebody who looks after people', async () => {
    const [a, b] = [await house.signedOn('Pam Unwin', ['manager']), await house.signedOn('Quin Vale', ['baker'])];
    expect((await a.post(`/people/${a.person}/pin`, { pin: '730914' }).expect(400)).body.field).toBe('currentPin');
    await a.post(`/people/${a.person}/pin`, { pin: '730914', currentPin: '999919' }).expect(401);
    expect((await a.post(`/people/${b.person}/pin`, { pin: '730914' }).expect(403)).body.type).toMatch(/not-permitted$/);
    await house.administrator.post(`/people/${b.person}/pin`, { pin: '730914', currentPin: house.administrator.pin }).expect(204);
    const { body } = await tablet.post('/sign-on', { person: b.person, pin: '730914' }).expect(403);
    expect(body.type).toMatch(/pin-not-own$/);
  });

  it.each(['0000', '1234', '8765', '1212', '1988'])('refuses %s', async (pin) => {
    const { person } = await house.join('Rex Wyatt', ['baker']);
    const { body } = await house.administrator.post(`/people/${person}/pin`, { pin, currentPin: house.administrator.pin }).expect(422);
    expect(body).toMatchObject({ field: 'pin', title: 'That PIN is too easy to guess' });
  });
});

describe('somebody of another business', () => {
  it('cannot sign on here, is not there, and has no site, device or person of ours', async () => {
    const { house: theirs, ...them } = await signedOn(t, 'administrator');
    const stranger = await theirs.signedOn('Sid Yarrow', ['administrator', 'manager']);
    const { person } = await house.join('Tess Abel', ['baker']);
    await request(t.server)
      .post('/api/v1/sign-on')
      .send({ organisation: house.organisation, person: them.person, pin: them.pin })
      .expect(401);
    await tablet.post('/sign-on', { person: them.person, pin: them.pin }).expect(401);
    await stranger.post(`/people/${person}/pin`, { pin: '730914' }).expect(422);
    await stranger.post('/devices/enrolment-codes', { site: house.site, currentPin: stranger.pin }).expect(422);
    await stranger.post(`/devices/${tablet.id}/revocation`, { currentPin: stranger.pin }).expect(404);
    expect((await stranger.post(`/sites/${house.site}/entries`, [{}]).expect(422)).body.type).toMatch(/unknown-site$/);
    await stranger.post('/sites/not-a-site/entries', [{}]).expect(422);
    expect((await stranger.get('/devices').expect(200)).body).toEqual([]);
    await tablet.get('/sign-on/people').expect(200);
  });

  it('gets nowhere with a token whose organisation was changed', async () => {
    const theirs = await House.found(t);
    const [, secret = ''] = house.administrator.token.split('.');
    for (const token of [
      `${theirs.organisation}.${secret}`,
      secret,
      `${house.organisation}.${secret}x`,
      `${house.organisation}.`,
      'null',
    ]) {
      await request(t.server).get('/api/v1/me').set('authorization', `Bearer ${token}`).expect(401);
    }
  });
});

describe('a browser’s cookies', () => {
  const withCookie = (): request.Test =>
    request(t.server)
      .post('/api/v1/devices/enrolment-codes')
      .set('cookie', `other=1; bakehouse_session=${house.administrator.token}`)
      .send({ site: house.site, currentPin: house.administrator.pin });

  it('do for a page of our own', async () => {
    await withCookie().set('sec-fetch-site', 'same-origin').expect(201);
    await withCookie().set('host', 'bakehouse.lan:3000').set('origin', 'http://bakehouse.lan:3000').expect(201);
    await request(t.server).get('/api/v1/me').set('cookie', `bakehouse_session=${house.administrator.token}`).expect(200);
  });

  it.each([
    ['sec-fetch-site', 'cross-site'],
    ['sec-fetch-site', 'same-site'],
    ['origin', 'http://elsewhere.example'],
    ['origin', 'null'],
    ['x-nothing', 'said'],
  ])('do not where %s is %s', async (header, value) => {
    expect((await withCookie().set(header, value).expect(403)).body.type).toMatch(/cross-site$/);
  });

  it('are Secure where the page came over TLS', async () => {
    const proxied = await startTestApp({ clock, env: { TRUST_PROXY: '1' } });
    const alone = await House.found(proxied);
    const them = await alone.join('Uma Bird', ['baker']);
    const { headers } = await request(proxied.server).post('/api/v1/sign-on').set('x-forwarded-proto', 'https').send(them).expect(200);
    expect(headers['set-cookie']?.[0]).toMatch(/; Secure; /);
    await proxied.close();
  });
});
