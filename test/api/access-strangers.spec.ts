import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import request from 'supertest';
import { PinHash } from '../../apps/api/src/platform/access/pin-hash.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { ProblemException } from '../../apps/api/src/platform/http/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
const unknownId = '00000000-0000-4000-8000-00000000abcd';
let t: TestApp;
let house: House;
let tablet: Tablet;
beforeAll(async () => {
  t = await startTestApp({ clock, env: { TRUST_PROXY: '1' } });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Table');
});
afterAll(() => t.close());

const withPin = (address: string, body: object): request.Test =>
  request(t.server)
    .post('/api/v1/sign-on')
    .set('x-forwarded-for', address)
    .send({ organisation: house.organisation, ...body });
const counts = (): Promise<number> =>
  connected(t.database.ownerUrl, async (owner) => Number((await owner.query('SELECT count(*) AS n FROM guess_count')).rows[0]?.n));

describe('strangers who guess', () => {
  it('from a thousand networks at one person keep nobody from where they were right before, nor from a tablet', async () => {
    const them = await house.join('Ann Bly', ['manager']);
    await withPin('198.51.100.7', them).expect(200);
    const statuses: number[] = [];
    for (let i = 1; i <= 14; i += 1) statuses.push((await withPin(`192.0.2.${i}`, { ...them, pin: '502817' })).status);
    expect(statuses).toEqual([...Array.from({ length: 10 }, () => 401), 429, 429, 429, 429]);
    await withPin('203.0.113.9', them).expect(429); // as slow for the person in a place that is new
    await withPin('198.51.100.7', them).expect(200);
    await tablet.post('/sign-on', them).expect(200);
  });

  it('of one household network are one, however many addresses it has', async () => {
    const them = await house.join('Cal Dow', ['baker']);
    const statuses: number[] = [];
    for (let i = 1; i <= 4; i += 1) statuses.push((await withPin(`2001:db8:1:2::${i}`, { ...them, pin: '502817' })).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });

  it('write no other address into a header than the nearest proxy says', async () => {
    const them = await house.join('Eve Fox', ['baker']);
    const statuses: number[] = [];
    for (let i = 1; i <= 4; i += 1) statuses.push((await withPin(`192.0.2.${100 + i}, 203.0.113.50`, { ...them, pin: '502817' })).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });

  it('who invent people leave one count behind for all of them at a place, and one elsewhere', async () => {
    const before = await counts();
    for (let i = 0; i < 6; i += 1) {
      const person = unknownId.replace('abcd', String(1000 + i));
      await withPin('203.0.113.77', { person, pin: '502817' });
    }
    expect((await counts()) - before).toBeLessThanOrEqual(3);
  });

  it('who invent a house are told so before a PIN is looked at, and leave nothing behind', async () => {
    const before = await counts();
    const { body } = await withPin('203.0.113.78', { organisation: unknownId, person: unknownId, pin: '502817' }).expect(422);
    expect(body).toMatchObject({ field: 'organisation' });
    expect(body.type).toMatch(/which-organisation$/);
    expect(await counts()).toBe(before);
  });

  it('a PIN that nobody looked at, because the service was busy, is no wrong one', async () => {
    const them = await house.join('Gil Hay', ['baker']);
    const busy = jest.spyOn(t.app.get(PinHash), 'fits').mockRejectedValue(new ProblemException('unavailable', { 'retry-after': '5' }));
    try {
      for (let i = 0; i < 12; i += 1) await withPin('203.0.113.80', them).expect(503);
    } finally {
      busy.mockRestore();
    }
    const statuses: number[] = [];
    for (let i = 0; i < 4; i += 1) statuses.push((await withPin('203.0.113.80', { ...them, pin: '502817' })).status);
    expect(statuses).toEqual([401, 401, 401, 429]);
  });
});

describe('a person’s state', () => {
  const strong = async (name: string): Promise<{ person: string; get: () => Promise<number> }> => {
    const caller = await house.signedOn(name, ['manager']);
    return { person: caller.person, get: async () => (await caller.get('/me')).status };
  };

  it('does not wait for the clock of the tablet that told of it: who has left is out at once', async () => {
    const { person, get } = await strong('Ida Joy');
    const [left] = [{ kind: 'person-left', payload: { person }, at: '2026-11-25T03:44:30.000Z' }] as const; // four minutes ahead, as clocks are
    await house.decide(left);
    expect(await get()).toBe(401);
  });

  it('is not got back by taking a joining back', async () => {
    const manager = await house.signedOn('Jo Kip', ['manager', 'administrator']);
    const { person } = await house.join('Kay Lim', ['baker']);
    const withdrawn = house.entry({ kind: 'entry-withdrawn', payload: {}, corrects: person, words: { reason: 'entered twice' } });
    const { body } = await manager.post('/organisation/entries', [withdrawn]).expect(200);
    expect(body).toMatchObject([{ as: 'refused', problem: 'decision-stands' }]);
  });

  it('as the last administrator is not corrected away', async () => {
    const alone = await House.found(t);
    const { administrator } = alone;
    const { body } = await administrator.get('/people').expect(200);
    const corrects = String(body[0].roles[0].given);
    const instead = (given: Pick<PayloadFor<'role-given'>, 'role' | 'site' | 'until'>) =>
      alone.entry({
        kind: 'role-given',
        payload: { person: administrator.person, ...given },
        corrects,
        words: { reason: 'meant otherwise' },
      });
    const forEver = { role: 'administrator', site: null, until: null } as const;
    const refused = { as: 'refused', problem: 'last-administrator' };
    for (const [entry, comes] of [
      [instead({ ...forEver, role: 'baker' }), refused],
      [instead({ ...forEver, site: alone.site }), refused],
      [instead({ ...forEver, until: '2026-12-01T00:00:00Z' }), refused],
      [instead(forEver), { as: 'recorded' }],
    ] as const) {
      const sent = await administrator.post('/organisation/entries', [await administrator.signed(entry)]).expect(200);
      expect(sent.body).toMatchObject([comes]);
    }
  });

  it.each(['\u200b', ' … '])('no record is corrected with a reason that says nothing: %j', async (reason) => {
    const { person } = await house.join('Max Noy', ['baker']);
    const renamed = house.entry({ kind: 'person-joined', payload: {}, words: { name: 'Max Roy', reason }, corrects: person });
    await house.administrator.post('/signatures', { pin: house.administrator.pin, entry: renamed }).expect(422);
  });
});
