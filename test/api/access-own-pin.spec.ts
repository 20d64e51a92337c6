import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { openSessions, securityEvents, type OpenSessions } from '@bakehouse/contracts';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { inHouse, connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, signOn, type Caller, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let tablet: Tablet;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Table');
});
afterAll(() => t.close());

const ownPin = (them: { person: string; pin: string }, newPin: string): request.Test =>
  request(t.server)
    .post('/api/v1/sign-on/own-pin')
    .send({ organisation: house.organisation, ...them, newPin });
const sessionsOf = async (person: string, asker: Caller): Promise<OpenSessions> =>
  openSessions.parse((await asker.get(`/people/${person}/sessions`).expect(200)).body);

describe('one’s own PIN', () => {
  it('is changed where one signs on, with the one that one has; every other session ends', async () => {
    const them = await house.join('Ann Bly', ['baker']);
    const before = await tablet.signOn(them.person, them.pin);
    const { body } = await ownPin(them, '640277').expect(200);
    await before.get('/me').expect(401);
    const now = (token: string): request.Test => request(t.server).get('/api/v1/me').set('authorization', `Bearer ${token}`);
    expect((await now(body.token).expect(200)).body).toMatchObject({ person: { id: them.person }, strength: 'pin' });
    await ownPin(them, '640278').expect(401); // the first one is no PIN any more
    await signOn(t, house.organisation, them.person, '640277');
    const { events } = securityEvents.parse((await house.administrator.get('/security-events').expect(200)).body);
    const own = expect.objectContaining({ id: them.person });
    expect(events).toContainEqual(expect.objectContaining({ what: 'pin-set', person: own, about: own }));
  });

  it.each([
    ['the same', undefined, 422, 'unacceptable-value'],
    ['easy to guess', '1234', 422, 'pin-too-weak'],
    ['no PIN', '12', 400, 'malformed'],
  ])('stays what it is where the new one is %s', async (_what, newPin, status, problem) => {
    const them = await house.join('Cal Dow', ['baker']);
    const { body } = await ownPin(them, newPin ?? them.pin).expect(status);
    expect(body.type).toContain(problem);
    await signOn(t, house.organisation, them.person, them.pin);
  });

  it('is guessed here no more often than where one signs on', async () => {
    const them = await house.join('Eve Fox', ['baker']);
    const statuses: number[] = [];
    for (let i = 0; i < 4; i += 1) statuses.push((await ownPin({ ...them, pin: '502817' }, '640277')).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });
});

describe('a PIN that an administrator gives', () => {
  const given = '502817';
  const problemOf = async (sent: request.Test): Promise<string> => String((await sent).body.type ?? 'none').replace(/^.*\//, '');
  const withPin = (person: string, pin: string) =>
    request(t.server).post('/api/v1/sign-on').send({ organisation: house.organisation, person, pin });
  const told = async (person: string): Promise<string[]> => {
    const sql = "SELECT person FROM entry WHERE organisation = $1 AND kind = 'pin-set' ORDER BY seq";
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      inHouse(owner, house.organisation, () => owner.query<{ person: string }>(sql, [house.organisation])),
    );
    return rows
      .map((r) => (r.person === person ? 'themselves' : r.person === house.administrator.person ? 'administrator' : 'another'))
      .slice(-3);
  };

  it('lets nobody in and signs nothing: it is good for choosing one’s own, after which both changes stand in the ledger', async () => {
    const { person, pin } = await house.join('Gil Hay', ['food-safety-lead']);
    const before = await tablet.signOn(person, pin);
    await house.givePin(person, given);
    await before.get('/me').expect(401);
    expect(await problemOf(withPin(person, given))).toBe('pin-not-own');
    const tapped = await tablet.tap(person);
    const act = house.entry({ kind: 'hold-lifted', payload: { hold: person } });
    expect(await problemOf(tapped.post('/signatures', { pin: given, entry: act }))).toBe('pin-not-own');
    expect(await problemOf(tapped.post(`/people/${person}/sessions/end`, { currentPin: '111111' }))).toBe('sign-on-refused');
    await tapped.post(`/people/${person}/pin`, { pin: '640277', currentPin: given }).expect(204);
    await tapped.post('/signatures', { pin: '640277', entry: act }).expect(200);
    await withPin(person, '640277').expect(200);
    expect(await told(person)).toEqual(['administrator', 'administrator', 'themselves']);
  });

  it('is refused as slowly, and counted as often, where it is wrong', async () => {
    const { person } = await house.join('Ivo Jex', ['baker']);
    await house.givePin(person, given);
    const statuses: number[] = [];
    for (let i = 0; i < 4; i += 1) statuses.push((await withPin(person, '502818')).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });

  it('nobody records by hand that it was set', async () => {
    const { body } = await house.administrator.post('/organisation/entries', [
      house.entry({ kind: 'pin-set', payload: { person: house.administrator.person } }),
    ]);
    expect(body).toEqual([expect.objectContaining({ as: 'refused', problem: 'not-permitted' })]);
  });
});

describe('a PIN of four digits', () => {
  it('signs no release, approval or closing and lets nobody in; for work at the table it is enough', async () => {
    const them = await house.join('Kay Lum', ['baker']);
    await ownPin(them, '6294').expect(200);
    for (const role of ['food-safety-lead', 'administrator'] as const)
      await house.decide({ kind: 'role-given', payload: { person: them.person, role, site: null, until: null } });
    const lead = await signOn(t, house.organisation, them.person, '6294');
    const lifts = house.entry({ kind: 'hold-lifted', payload: { hold: them.person } });
    expect((await lead.post('/signatures', { pin: '6294', entry: lifts }).expect(403)).body.type).toContain('pin-too-short');
    const code = await lead.post('/devices/enrolment-codes', { site: house.site, currentPin: '6294' }).expect(403);
    expect(code.body.type).toContain('pin-too-short');
    await lead.post(`/people/${them.person}/pin`, { pin: '629408', currentPin: '6294' }).expect(204);
    await lead.post('/signatures', { pin: '629408', entry: lifts }).expect(200);
    const shorter = await ownPin({ ...them, pin: '629408' }, '6294').expect(403);
    expect([shorter.body.type, shorter.body.field]).toEqual([expect.stringContaining('pin-too-short'), 'pin']);
  });
});

describe('where somebody is signed on', () => {
  it('is shown with the tablet, how, and since when; what has ended or was left too long is not', async () => {
    const them = await house.join('Gil Hay', ['baker']);
    const tapped = await tablet.tap(them.person);
    clock.set('2026-11-25T03:50:00Z');
    const here = await signOn(t, house.organisation, them.person, them.pin);
    expect(await sessionsOf(them.person, here)).toMatchObject([
      { device: null, strength: 'pin', since: '2026-11-25T03:50:00.000Z', current: true },
      { device: { name: 'Table' }, strength: 'tapped', since: '2026-11-25T03:40:00.000Z', current: false },
    ]);
    await tapped.post('/sign-off').expect(204);
    expect(await sessionsOf(them.person, here)).toHaveLength(1);
  });

  it('is shown to administrators, and to nobody else', async () => {
    const them = await house.join('Ida Joy', ['baker']);
    await tablet.tap(them.person);
    const other = await house.signedOn('Kay Lim', ['manager']);
    await other.get(`/people/${them.person}/sessions`).expect(403);
    await other.post(`/people/${them.person}/sessions/end`, { currentPin: other.pin }).expect(403);
    await house.again();
    expect(await sessionsOf(them.person, house.administrator)).toMatchObject([{ device: { name: 'Table' }, current: false }]);
    await house.administrator.get(`/people/${house.site}/sessions`).expect(422);
  });

  it('is ended everywhere but here with the PIN, and noted', async () => {
    const them = await house.join('Max Noy', ['baker']);
    const [left, here] = [await tablet.tap(them.person), await tablet.signOn(them.person, them.pin)];
    await here.post(`/people/${them.person}/sessions/end`, {}).expect(400);
    await here.post(`/people/${them.person}/sessions/end`, { currentPin: '502817' }).expect(401);
    await left.get('/me').expect(200);
    await here.post(`/people/${them.person}/sessions/end`, { currentPin: them.pin }).expect(204);
    await left.get('/me').expect(401);
    await here.get('/me').expect(200);
    const { events } = securityEvents.parse((await house.administrator.get('/security-events').expect(200)).body);
    expect(events.map((e) => e.what)).toContain('sessions-ended');
  });

  it('is nobody’s business in another house', async () => {
    const [them, other] = [await house.join('Oda Pym', ['baker']), await House.found(t)];
    await other.administrator.get(`/people/${them.person}/sessions`).expect(422);
    await other.administrator.post(`/people/${them.person}/sessions/end`, { currentPin: other.administrator.pin }).expect(422);
  });
});
