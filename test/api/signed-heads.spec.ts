import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { securityEvents, signedHeads, type HeadsDiffer } from '@bakehouse/contracts';
import { Frontier, leafHash, utf8 } from '@bakehouse/ledger';
import { Kept, SeenHeads, type BrokenHead } from '@bakehouse/offline';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { newStore } from '../support/offline-device.js';
import { House, type Caller } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let baker: Caller;
let tablet: SeenHeads;
let online = true;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
  await record(5);
});
afterAll(() => t.close());
beforeEach(async () => {
  online = true;
  tablet = tabletOn(new Kept(await newStore()()));
});

const record = (n: number) => house.recordReadings(n, baker);
const heads = async (query = '') =>
  signedHeads.parse((await baker.get(`/sites/${house.site}/signed-heads${query}`).expect(200)).body).heads;

/** What a tablet does, over the real routes. */
const tabletOn = (kept: Kept): SeenHeads =>
  new SeenHeads(
    {
      kept,
      clock,
      heads: async (sizes) => {
        if (!online) return undefined;
        const named = [sizes.get(house.site), sizes.get(house.organisation)];
        const query = ['site', 'organisation'].flatMap((name, i) => (named[i] === undefined ? [] : [`${name}=${named[i]}`]));
        return heads(`?${query.join('&')}`);
      },
      tell: async ({ book, why, seen, now }: BrokenHead) => {
        const report: HeadsDiffer = { book, why, seen, now };
        return online && (await baker.post(`/sites/${house.site}/signed-heads/differ`, report)).status === 204;
      },
    },
    [house.site, house.organisation],
  );

type Head = { size: number; frontier: string[] };
const asOwner = <T>(work: (query: <R extends object>(sql: string, values?: unknown[]) => Promise<R[]>) => Promise<T>): Promise<T> =>
  connected(t.database.ownerUrl, (owner) =>
    work(async <R extends object>(sql: string, values: unknown[] = []) => (await owner.query<R>(sql, values)).rows),
  );
const headNow = () =>
  asOwner(
    async (query) => (await query<Head>('SELECT size, frontier FROM book WHERE id = $1', [house.site]))[0] ?? { size: 0, frontier: [] },
  );
const putHead = ({ size, frontier }: Head) =>
  asOwner((query) => query('UPDATE book SET size = $2, frontier = $3 WHERE id = $1', [house.site, size, frontier]));
const noted = async () => securityEvents.parse((await house.administrator.get('/security-events').expect(200)).body);

describe('a tablet that remembers the last signed head', () => {
  it('takes the records as they grow, and asks for nothing it has seen to be proven twice', async () => {
    expect(await tablet.look()).toEqual([]);
    await record(9);
    expect(await tablet.look()).toEqual([]);
    expect(await tablet.look()).toEqual([]);
    await record(1);
    const size = (await headNow()).size;
    const [site] = await heads(`?site=${size - 1}`);
    expect(site).toMatchObject({ book: house.site, size });
    expect(site?.proofHex?.length).toBeGreaterThan(0);
    expect((await heads(`?site=${size + 1}`))[0]?.proofHex).toBeNull();
    expect((await noted()).notices.historyDiffers).toBeNull();
  });

  it('keeps no seal for it: none is made by asking', async () => {
    await tablet.look();
    expect(await asOwner((query) => query('SELECT FROM seal'))).toEqual([]);
  });

  it('is only for who may look at that site', async () => {
    const other = await House.found(t);
    await other.administrator.get(`/sites/${house.site}/signed-heads`).expect(422);
    await baker.get(`/sites/${house.site}/signed-heads?site=-1`).expect(400);
  });

  describe('where the records are not those that it saw', () => {
    let before: Head;
    beforeEach(async () => {
      await tablet.look();
      before = await headNow();
    });
    afterEach(() => putHead(before));

    it('says so where the service came back with fewer, tells the administrator once, and is content when they are back', async () => {
      clock.advance({ minutes: 7 });
      const shorter = Frontier.empty();
      for (let i = 0; i < 4; i += 1) shorter.append(leafHash(utf8(`${i}`)));
      await putHead({ size: 4, frontier: shorter.toHex() });
      online = false;
      expect(await tablet.look()).toEqual([]); // it was not asked, so nothing is known
      online = true;
      const [found, ...more] = await tablet.look();
      expect(more).toEqual([]);
      expect(found).toMatchObject({ book: house.site, why: 'shorter', name: 'Mill Lane', since: clock.now().toISOString() });
      expect(await tablet.look()).toMatchObject([{ why: 'shorter', told: true }]);
      const { events, notices } = await noted();
      const told = events.filter(({ what }) => what === 'history-differs');
      expect(told).toMatchObject([
        {
          person: { name: 'Bo Baker' },
          detail: expect.stringMatching(`Mill Lane: shorter; .*; it saw ${before.size} records, signed here, and there are fewer`),
        },
      ]);
      expect(notices.historyDiffers).toEqual({ count: 1, last: clock.now().toISOString() });
      await putHead(before);
      expect(await tablet.look()).toEqual([]);
    });

    it('says so where as many or more are there that begin otherwise', async () => {
      const forked = Frontier.empty();
      for (let i = 0; i < before.size; i += 1) forked.append(leafHash(utf8(`written anew ${i}`)));
      await putHead({ size: before.size, frontier: forked.toHex() });
      expect(await tablet.look()).toMatchObject([{ why: 'forked', told: true }]);
    });

    it('goes on from there once somebody has found out why, and not before', async () => {
      const rewound = Frontier.empty();
      for (let i = 0; i < 2; i += 1) rewound.append(leafHash(utf8(`${i}`)));
      await putHead({ size: 2, frontier: rewound.toHex() });
      const [found] = await tablet.look();
      if (!found) throw new Error('nothing was found');
      await tablet.goOnFrom(found);
      expect(await tablet.broken()).toEqual([]);
      expect(await tablet.look()).toEqual([]);
    });

    it('takes nothing of a report on trust', async () => {
      const made = { note: 'x', verifierKey: 'y', at: clock.now().toISOString() };
      const report = { book: house.site, why: 'forked', seen: made, now: { note: 'x', verifierKey: 'y' } };
      await baker.post(`/sites/${house.site}/signed-heads/differ`, report).expect(204);
      const { events } = await noted();
      expect(events.map(({ detail }) => detail)).toContainEqual(
        expect.stringContaining('what it saw is not signed by the key that is here now'),
      );
      await baker.post(`/sites/${house.site}/signed-heads/differ`, { ...report, book: house.organisation.replace(/^./, '0') }).expect(404);
      await baker.post(`/sites/${house.site}/signed-heads/differ`, { ...report, why: 'because' }).expect(400);
    });

    it('takes no more reports than tablets make', async () => {
      const seen = { note: 'x', verifierKey: 'y', at: clock.now().toISOString() };
      const report = { book: house.site, why: 'forked', seen, now: { note: 'z', verifierKey: 'y' } };
      const answers = await Promise.all(Array.from({ length: 60 }, () => baker.post(`/sites/${house.site}/signed-heads/differ`, report)));
      expect([...new Set(answers.map(({ status }) => status))].sort()).toEqual([204, 429]);
      expect(answers.filter(({ status }) => status === 204).length).toBeLessThanOrEqual(30);
    });
  });
});
