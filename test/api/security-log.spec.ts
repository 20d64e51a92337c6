import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { securityEvents, type SecurityEvents } from '@bakehouse/contracts';
import request from 'supertest';
import * as z from 'zod';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { securityEventsCommand } from '../../apps/api/src/security-events.command.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Caller, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let tablet: Tablet;
let ada: Caller;
beforeAll(async () => {
  t = await startTestApp({ clock, env: { TRUST_PROXY: '1' } });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Table');
  ada = house.administrator;
});
afterAll(() => t.close());

const log = async (before?: string): Promise<SecurityEvents> =>
  securityEvents.parse((await ada.get(`/security-events${before === undefined ? '' : `?before=${before}`}`).expect(200)).body);
const seen = new Set<string>();
/** What was noted since this was asked last; the clock stands, so what is of one moment has no order. */
const noted = async (): Promise<object> => {
  const { events } = await log();
  const fresh = events.filter((e) => !seen.has(e.id));
  for (const { id } of events) seen.add(id);
  return fresh;
};
const among = (event: object): object => expect.arrayContaining([expect.objectContaining(event)]);
const named = (name: string): object => expect.objectContaining({ name });
const wrong = (person: string, address: string): request.Test =>
  request(t.server)
    .post('/api/v1/sign-on')
    .set('x-forwarded-for', address)
    .send({ organisation: house.organisation, person, pin: '502817' });

describe('what happens at the door', () => {
  it('is noted with who, from where and when', async () => {
    const bea = await house.join('Bea Kerr', ['baker']);
    expect(await noted()).toEqual(
      among({
        what: 'pin-set',
        person: named('Ada Min'),
        about: named('Bea Kerr'),
        address: '127.0.0.1',
      }),
    );
    await wrong(bea.person, '192.0.2.9').expect(401);
    expect(await noted()).toEqual(
      among({
        what: 'pin-wrong',
        person: named('Bea Kerr'),
        address: '192.0.2.9',
        at: clock.now().toISOString(),
      }),
    );
    await wrong('00000000-0000-4000-8000-00000000abcd', '192.0.2.9').expect(401);
    expect(await noted()).toEqual(among({ what: 'pin-wrong', person: null, address: '192.0.2.9' }));
    const here = await tablet.signOn(bea.person, bea.pin);
    expect(await noted()).toEqual(
      among({
        what: 'signed-on',
        person: named('Bea Kerr'),
        device: named('Table'),
        address: null,
        detail: 'pin',
      }),
    );
    await here.get('/people').expect(403);
    expect(await noted()).toEqual(among({ what: 'refused', person: named('Bea Kerr'), detail: 'GET /api/v1/people' }));
    await here.post('/devices/enrolment-codes', { site: house.site, currentPin: bea.pin }).expect(403); // refused inside the route
    expect(await noted()).toEqual(among({ what: 'refused', detail: 'POST /api/v1/devices/enrolment-codes' }));
    const lost = await enrolledTablet(house, 'Lost');
    const two = await noted();
    expect(two).toEqual(among({ what: 'device-enrolled', person: named('Ada Min'), about: named('Lost') }));
    expect(two).toEqual(among({ what: 'code-made', person: named('Ada Min') }));
    await ada.post(`/devices/${lost.id}/revocation`, { currentPin: ada.pin }).expect(204);
    expect(await noted()).toEqual(among({ what: 'device-revoked', about: named('Lost') }));
    await house.decide({ kind: 'person-joined', payload: {}, words: { name: 'Cy' } });
    expect(await noted()).toEqual(among({ what: 'signature-given', person: named('Ada Min'), detail: 'person-joined' }));
    const manager = await house.signedOn('Dee Ford', ['manager']);
    await manager.get(`/sites/${house.site}/inspection/bundle.json?from=2026-11-24&until=2026-11-25`).expect(200);
    expect(await noted()).toEqual(among({ what: 'exported', person: named('Dee Ford'), detail: expect.stringContaining('bundle.json') }));
  });

  it('notes one refusal that is asked for again and again once a minute', async () => {
    const eve = await house.signedOn('Eve Gold', ['baker']);
    const refused = async (): Promise<number> =>
      (await log()).events.filter((e) => e.what === 'refused' && e.person?.id === eve.person).length;
    for (let i = 0; i < 5; i += 1) await eve.get('/people').expect(403);
    expect(await refused()).toBe(1);
  });

  it('holds no PIN and no token', async () => {
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query<{ text: string }>('SELECT s::text AS text FROM security_event s'),
    );
    const all = rows.map((r) => r.text).join('\n');
    for (const secret of [ada.pin, '502817', ada.token.split('.')[1] ?? '', tablet.token.split('.')[1] ?? ''])
      expect(all).not.toContain(secret);
  });

  it('is for somebody who looks after people', async () => {
    const manager = await house.signedOn('Fay Hill', ['manager', 'food-safety-lead']);
    await manager.get('/security-events').expect(403);
    await ada.get('/security-events?before=x').expect(400);
  });

  it('tells without being asked that PINs are being guessed from many addresses, until a day later', async () => {
    const people: string[] = [];
    for (let i = 0; i < 4; i += 1) people.push((await house.join(`Guessed ${i}`, ['baker'])).person);
    expect((await log()).notices.wrongPins).toBeNull();
    for (let i = 0; i < 24; i += 1) await wrong(people[i % 4] ?? '', `198.51.100.${i}`).expect(401);
    const { wrongPins, newDevices, pinsSetByOthers } = (await log()).notices;
    expect(wrongPins).toMatchObject({ people: 5, addresses: 25 });
    expect(wrongPins?.count).toBeGreaterThanOrEqual(24);
    expect(newDevices).toBe(2);
    expect(pinsSetByOthers).toBeGreaterThan(4);
    clock.advance({ hours: 25 });
    await house.again();
    ada = house.administrator;
    expect((await log()).notices.wrongPins).toBeNull();
  });

  it('is read page by page, each event once', async () => {
    const ida = await house.signedOn('Ida Jory', ['baker']);
    for (let i = 0; i < 70; i += 1) await tablet.signOn(ida.person, ida.pin);
    const all = new Set<string>();
    let page = await log();
    for (;;) {
      for (const { id } of page.events) all.add(id);
      if (page.next === null) break;
      page = await log(page.next);
    }
    const count = await connected(t.database.ownerUrl, async (o) =>
      Number((await o.query('SELECT count(*) AS n FROM security_event')).rows[0]?.n),
    );
    expect(all.size).toBe(count);
    expect(count).toBeGreaterThan(100);
  });

  it('is of one’s own house alone, and stays as it is', async () => {
    const theirs = await House.found(t);
    const { body } = await theirs.administrator.get('/security-events').expect(200);
    expect(securityEvents.parse(body).events.map((e) => e.what)).toEqual(['signed-on']);
    await connected(t.database.serviceUrl, async (service) => {
      await service.query("SELECT set_config('app.organisation', $1, false)", [house.organisation]);
      await expect(service.query("UPDATE security_event SET what = 'exported'")).rejects.toThrow(/permission denied/);
    });
  });
});

describe('a collector of logs', () => {
  const run = async (...words: string[]): Promise<{ code: number; lines: string[] }> => {
    const lines: string[] = [];
    return { code: await securityEventsCommand(t.database, { words, say: (line) => lines.push(line) }), lines };
  };
  const line = z.object({ house: z.object({ id: z.string(), name: z.string() }), id: z.string(), at: z.string(), what: z.string() });

  it('gets every event of every house since an instant, a line each, the oldest first, and no secret', async () => {
    const since = clock.now().toISOString();
    const other = await House.found(t);
    const them = await other.join('Dot Lane', ['baker']);
    for (let i = 0; i < 130; i += 1) await wrong(crypto.randomUUID(), `192.0.2.${i}`); // more than a page
    const { code, lines } = await run('--since', since);
    const events = lines.map((l) => line.parse(JSON.parse(l)));
    expect(code).toBe(0);
    const noted = await connected(t.database.ownerUrl, (owner) =>
      owner.query<{ id: string }>('SELECT id FROM security_event WHERE at >= $1', [since]),
    );
    expect(events.map((e) => e.id).sort()).toEqual(noted.rows.map((r) => r.id).sort());
    expect(events.map((e) => e.house.id)).toEqual(expect.arrayContaining([house.organisation, other.organisation]));
    for (const { organisation } of [house, other]) {
      const times = events.filter((e) => e.house.id === organisation).map((e) => e.at);
      expect(times).toEqual([...times].sort());
    }
    expect(lines.join()).not.toContain(them.pin);
  });

  it.each(['', '--since yesterday', '--since', '--until 2026-11-25T00:00:00Z'])('that asks wrongly is told how: "%s"', async (asked) => {
    const { code, lines } = await run(...asked.split(' ').filter((word) => word !== ''));
    expect([code, lines.join()]).toEqual([2, expect.stringContaining('security-events --since')]);
  });
});
