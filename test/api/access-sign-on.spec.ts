import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
const type = (code: string): string => `https://bakehouse-ledger.example/problems/${code}`;
let t: TestApp;
let house: House;
let tablet: Tablet;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Table');
});
afterAll(() => t.close());

const withPin = (person: string, pin: string): request.Test =>
  request(t.server).post('/api/v1/sign-on').send({ organisation: house.organisation, person, pin });

describe('signing on with a PIN', () => {
  it('gives a token, a cookie that no script reads, and what the roles allow', async () => {
    const { person, pin } = await house.join('Bea Kerr', ['baker'], house.site);
    const { body, headers } = await withPin(person, pin).expect(200);
    expect(body).toMatchObject({ person: { id: person, name: 'Bea Kerr' }, strength: 'pin', expiresAt: '2026-11-25T15:40:00.000Z' });
    expect(headers['set-cookie']).toEqual([`bakehouse_session=${body.token}; Max-Age=43200; Path=/api; HttpOnly; SameSite=Strict`]);
    const me = await request(t.server).get('/api/v1/me').set('cookie', `bakehouse_session=${body.token}`).expect(200);
    expect(me.body).toMatchObject({
      organisation: { id: house.organisation },
      person: { id: person },
      session: body.session,
      device: null,
      permissions: ['view'],
      sites: [{ id: house.site, name: 'Mill Lane', zone: 'Europe/London', permissions: ['view', 'record', 'decide.goods'] }],
    });
  });

  it('answers a wrong PIN, somebody unknown and somebody without a PIN with the same words', async () => {
    const { person } = await house.join('Con Dray', ['viewer']);
    const [nobodys = ''] = await house.decide({ kind: 'person-joined', payload: {}, words: { name: 'Dot Ely' } });
    const answers = [
      await withPin(person, '8305'),
      await withPin('00000000-0000-4000-8000-00000000abcd', '8305'),
      await withPin(nobodys, '8305'),
    ];
    expect(answers.map((a) => a.status)).toEqual([401, 401, 401]);
    for (const { body } of answers) expect({ ...body, instance: '' }).toEqual({ ...answers[0]?.body, instance: '' });
    expect(answers[0]?.body.type).toBe(type('sign-on-refused'));
    expect(answers.flatMap((a) => a.headers['set-cookie'] ?? [])).toEqual([]);
  });

  it.each([
    [{}, 'pin'],
    [{ pin: '7391' }, 'person'],
    [{ person: 'x', pin: '7391' }, 'person'],
    [{ person: '00000000-0000-4000-8000-00000000abcd', pin: '12' }, 'pin'],
    [{ person: '00000000-0000-4000-8000-00000000abcd', pin: 7391 }, 'pin'],
  ])('says which field of %j is wrong, and never the PIN', async (body, field) => {
    const answer = await request(t.server).post('/api/v1/sign-on').send(body).expect(400);
    expect(answer.body).toMatchObject({ type: type('malformed'), field });
    expect(answer.text).not.toContain('7391');
  });

  it('slows guessing elsewhere without keeping the person from their own tablet', async () => {
    const { person, pin } = await house.join('Eli Foss', ['baker']);
    for (const guess of ['7000', '7100', '7200']) await withPin(person, guess).expect(401);
    const slowed = await withPin(person, pin).expect(429);
    expect(slowed.headers['retry-after']).toBe('5');
    expect(slowed.body.type).toBe(type('too-many-requests'));
    await tablet.post('/sign-on', { person, pin }).expect(200);
    clock.advance({ seconds: 5 });
    await withPin(person, pin).expect(200);
    for (const guess of ['7000', '7100']) await withPin(person, guess).expect(401);
    await withPin(person, pin).expect(200);
  });

  it('lets no more through when the guesses come at once', async () => {
    const { person } = await house.join('Fay Gill', ['baker']);
    await withPin(person, '4099').expect(401);
    await Promise.all(Array.from({ length: 20 }, () => tablet.get('/sign-on/people').expect(200))); // every connection of the pool is open
    const guesses = Array.from({ length: 20 }, (_, i) => String(4100 + i));
    const statuses = await Promise.all(guesses.map(async (guess) => (await withPin(person, guess)).status));
    expect(statuses.filter((s) => s === 401)).toHaveLength(2);
    expect(statuses.filter((s) => s === 429)).toHaveLength(18);
  });

  it('slows one PIN tried on person after person at one tablet, but not who is known there', async () => {
    const shop = await House.found(t);
    const counter = await enrolledTablet(shop, 'Counter');
    const known = await shop.join('Gus Hale', ['baker']);
    await counter.post('/sign-on', known).expect(200);
    const others: { person: string; pin: string }[] = [];
    for (let i = 0; i < 11; i += 1) others.push(await shop.join(`Other ${i}`, ['viewer']));
    const statuses: number[] = [];
    for (const { person } of others) statuses.push((await counter.post('/sign-on', { person, pin: '5028' })).status);
    expect(statuses).toEqual([...Array.from({ length: 10 }, () => 401), 429]);
    await counter.post('/sign-on', known).expect(200);
    await counter.post('/sign-on', others[10]).expect(429);
  });

  it('stores neither PIN nor token, only what cannot be turned back', async () => {
    const { person, pin: before } = await house.join('Hal Ince', ['baker']);
    const pin = '71309264';
    await request(t.server)
      .post('/api/v1/sign-on/own-pin')
      .send({ organisation: house.organisation, person, pin: before, newPin: pin })
      .expect(200);
    const { body } = await withPin(person, pin).expect(200);
    const stored = await connected(t.database.ownerUrl, async (owner) => {
      const tables = ['credential', 'session', 'device', 'enrolment_code', 'guess_count', 'signature_token', 'set_aside'];
      const all = [
        ...tables.map((name) => `SELECT x::text AS text FROM "${name}" x`),
        "SELECT convert_from(bytes, 'UTF8') FROM entry_body",
      ];
      return (await owner.query<{ text: string }>(all.join(' UNION ALL '))).rows.map((row) => row.text).join('\n');
    });
    expect(stored).toContain('$argon2id$v=19$'); // what it costs: pin-hash.spec.ts
    for (const secret of [pin, String(body.token).split('.')[1], tablet.token.split('.')[1]]) expect(stored).not.toContain(secret);
  });
});

describe('tapping a name', () => {
  it('shows the names of the site, without leavers and those of another site', async () => {
    const two = await House.found(t, [
      { name: 'Mill Lane', zone: 'Europe/London' },
      { name: 'Quay', zone: 'Europe/London' },
    ]);
    const quay = two.created.sites[1] ?? '';
    const at = await enrolledTablet(two, 'Table');
    await two.join('Zoë 🥐 אופה', ['baker'], two.site);
    await two.join('Only Quay', ['baker'], quay);
    await two.join('Roving', ['baker'], null);
    await two.join('Ina Spector', ['inspector'], two.site);
    const gone = await two.join('Ida Jay', ['baker'], two.site);
    await two.decide({ kind: 'person-left', payload: { person: gone.person } });
    const { body } = await at.get('/sign-on/people').expect(200);
    expect(body.device).toEqual({ id: at.id, name: 'Table', site: two.site });
    expect(body.people.map((p: { name: string; tap: boolean }) => [p.name, p.tap])).toEqual([
      ['Ada Min', true],
      ['Ina Spector', false],
      ['Roving', true],
      ['Zoë 🥐 אופה', true],
    ]);
    await at.post('/sign-on/tap', { person: gone.person }).expect(422);
  });

  it('needs an enrolled tablet', async () => {
    const { person } = await house.join('Jan Kay', ['baker']);
    await request(t.server).post('/api/v1/sign-on/tap').send({ person }).expect(422); // several businesses: which one?
    const single = await startTestApp();
    const alone = await House.found(single);
    const them = await alone.join('Kit Lee', ['baker']);
    const list = await request(single.server).get('/api/v1/sign-on/people').expect(200);
    expect(list.body).toMatchObject({ device: null, organisation: { id: alone.organisation } });
    expect(list.body.people.map((p: { name: string; tap: boolean }) => [p.name, p.tap])).toEqual([
      ['Ada Min', false],
      ['Kit Lee', false],
    ]);
    expect((await request(single.server).post('/api/v1/sign-on/tap').send({ person: them.person }).expect(401)).body.type).toBe(
      type('device-not-enrolled'),
    );
    await request(single.server).post('/api/v1/sign-on').send(them).expect(200); // the only business need not be named
    await single.close();
  });

  it('records and looks, and wants the PIN for more', async () => {
    const { person, pin } = await house.join('Lil Moy', ['manager', 'administrator']);
    const tapped = await tablet.tap(person);
    const { body } = await tapped.get('/me').expect(200);
    expect(body).toMatchObject({ strength: 'tapped', device: tablet.id, permissions: ['view', 'record', 'decide.goods'] });
    const joining = house.entry({ kind: 'person-joined', payload: {}, words: { name: 'Mo New' } });
    expect((await tapped.post('/organisation/entries', [joining]).expect(200)).body).toMatchObject([
      { as: 'refused', problem: 'signature-missing' },
    ]);
    expect((await tapped.post('/devices/enrolment-codes', { site: house.site }).expect(403)).body.type).toBe(type('pin-needed'));
    const strong = await tablet.signOn(person, pin);
    expect((await strong.post('/organisation/entries', [joining]).expect(200)).body).toMatchObject([
      { as: 'refused', problem: 'signature-missing' },
    ]);
    expect((await strong.post('/organisation/entries', [await strong.signed(joining)]).expect(200)).body).toMatchObject([
      { as: 'recorded' },
    ]);
  });

  it('ends when the tablet is revoked, and the tablet taps no more', async () => {
    const lost = await enrolledTablet(house, 'Lost');
    const { person, pin } = await house.join('Ned Orr', ['baker']);
    const tapped = await lost.tap(person);
    await house.administrator.post(`/devices/${lost.id}/revocation`, { currentPin: house.administrator.pin }).expect(204);
    expect((await tapped.get('/me').expect(401)).body.type).toBe(type('session-ended'));
    await lost.post('/sign-on/tap', { person }).expect(422);
    expect((await lost.post('/sign-on', { organisation: house.organisation, person, pin }).expect(200)).body.strength).toBe('pin');
    const listed = (await house.administrator.get('/devices').expect(200)).body.find((d: { id: string }) => d.id === lost.id);
    expect(listed).toMatchObject({ name: 'Lost', revokedAt: clock.now().toISOString() });
  });
});
