import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import fc from 'fast-check';
import type { ClientBase } from 'pg';
import { type CounterView, type InspectionView, type OpenThings } from '@bakehouse/contracts';
import { foundSinceRelease, lookupOf, troubleOn } from '@bakehouse/views';
import request from 'supertest';
import { heldLots, followedStandingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books, concernBegins } from '../../apps/api/src/platform/ledger/index.js';
import { letGo } from '../../apps/api/src/platform/ledger/on-watch.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { bloomersOf, keptDough, putBack, ruledWhite } from '../support/ruled.js';
import { size } from '../support/size.js';

const now = '2026-11-25T07:00:00.000Z';
const what = 'white dough: at most 10 % of the flour; this makes 14 %';
const reason = { words: { reason: 'misread' } };

describe('rework against the rule of its formula', () => {
  let t: TestApp;
  let b: Bakehouse;
  let version: string;
  let kept: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    version = await ruledWhite(b, { maxAgeHours: 24, maxTimes: 1 });
    kept = await keptDough(b);
  });
  afterAll(() => t.close());

  const inBook = <T>(work: (client: ClientBase) => Promise<T>): Promise<T> =>
    t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, work);
  const everythingOver = async (): Promise<void> => {
    await inBook((c) => letGo(c, b.house.organisation, null));
  };
  const open = async (): Promise<OpenThings> => (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;
  const heldAs = async (lot: string) => (await open()).held.find((h) => h.lot === lot)?.concerns.map((c) => [c.type, c.what]) ?? [];
  const tablet = async () => lookupOf(await b.night(), now, 'Europe/London', b.site);
  const toTheOfficer = async (deviation: string | undefined) => {
    const page: InspectionView = (await b.lead.caller.get(`/sites/${b.site}/inspection?from=2026-11-25&until=2026-11-25`).expect(200)).body;
    return page.deviations.find((d) => d.id === deviation);
  };
  const atCounter = async (): Promise<CounterView> => (await request(t.server).get('/api/v1/counter').expect(200)).body;

  it('puts the batch on hold in the night, on the list and at the door, until somebody decides by its deviation', async () => {
    const { make, batch } = await bloomersOf(b, version, { flour: '10000', back: '1400', from: kept });
    const against = [['rework-against-rule', what]];
    expect(await heldAs(batch)).toEqual(against);
    expect(troubleOn(await tablet(), batch)).toBe('held-lot-used');
    await expect(b.baker.record('released-by-rule', { batch }, { at: at('05:10') })).rejects.toThrow(what);
    const deviation = (await b.night()).deviation.find((d) => d.subject === make);
    expect(deviation).toMatchObject({ type: 'rework-against-rule', summary: what });
    expect(await toTheOfficer(deviation?.id)).toMatchObject({ onHold: true });
    const accepted: Omit<PayloadFor<'disposition-decided'>, 'deviation'> = {
      lot: null,
      disposition: 'accepted-for-use',
      covers: 'what-came-of-it',
      concerns: [],
      quantity: null,
    };
    await b.lead.record('disposition-decided', { deviation: deviation?.id ?? '', ...accepted }, { at: at('05:30') });
    expect(await heldAs(batch)).toEqual([]);
    expect(troubleOn(await tablet(), batch)).toBeNull();
    expect(await toTheOfficer(deviation?.id)).toMatchObject({ onHold: false });
    await b.baker.record('released-by-rule', { batch }, { at: at('05:40') });
  });

  it('is found after release where an amount is corrected late, also of what was let go by then', async () => {
    const { batch, lot, flour, make } = await bloomersOf(b, version, { flour: '14000', back: '1400', from: kept });
    await b.baker.record('released-by-rule', { batch }, { at: at('05:10') });
    await b.baker.record('put-on-counter', { lot: batch, way: 'on', pieces: 2 }, { at: at('05:20') });
    expect((await atCounter()).held).toEqual([]);
    await everythingOver();
    expect(await heldAs(batch)).toEqual([]);
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '10000', lot)] }, { at: at('02:31'), corrects: flour, ...reason });
    expect(await heldAs(batch)).toEqual([['rework-against-rule', what]]);
    expect(foundSinceRelease(await tablet()).filter((f) => f.id === batch)).toMatchObject([
      { findings: [{ code: 'rework-against-rule', what }] },
    ]);
    expect((await atCounter()).held.map((h) => h.lot)).toEqual([batch]);
    expect((await atCounter()).products).toMatchObject([{ onHold: true }]);
  });

  interface Dough {
    readonly make: string;
    readonly batch: string;
    readonly run: string;
    readonly lot: string;
    readonly flour: string;
    readonly back: string;
    readonly from: string;
  }
  const weigh = (make: string, lines: Parameters<typeof putBack>[], time: string, corrects?: string) =>
    b.baker.record(
      'weighed-in',
      { make, lines: lines.map((l) => putBack(...l)) },
      { at: at(time), ...(corrects === undefined ? {} : { corrects, ...reason }) },
    );
  /** What may be told late. */
  const actions: Readonly<Record<string, (x: Dough, n: number) => Promise<unknown>>> = {
    'the flour was more, or less, or nobody knows': (x, n) => {
      const line = b.into('flour', ['10000', '14000', '0'][n % 3] ?? '', x.lot);
      return b.baker.record(
        'weighed-in',
        { make: x.make, lines: [n % 3 === 2 ? { ...line, quantity: null } : line] },
        { at: at('02:31'), corrects: x.flour, ...reason },
      );
    },
    'more was put back, or less, or nobody knows': (x, n) =>
      weigh(x.make, [[b, x.from, ['1000', '2000', null][n % 3] ?? null]], '02:32', x.back),
    'it is nobody’s lot': async (x) => {
      const line = { ...putBack(b, x.from, '1000'), lot: null };
      return b.baker.record('weighed-in', { make: x.make, lines: [line] }, { at: at('02:32'), corrects: x.back, ...reason });
    },
    'something was put back into what was put back': async (x, n) =>
      weigh(x.from, [[b, await keptDough(b, at('00:30')), '10']], n % 2 === 0 ? '01:10' : '01:20'),
    'what was put back was ended': (x, n) =>
      b.baker.record(
        'make-ended',
        { make: x.from, quantity: null, how: 'weighed' },
        { at: at(n % 2 === 0 ? '01:30' : '20:00', n % 2 === 0 ? '2026-11-25' : '2026-11-23') },
      ),
    'another flour was allowed': (x) =>
      b.lead.record(
        'one-off-changed',
        { make: x.make, material: b.material('flour'), instead: b.material('salt') },
        { at: at('02:30'), words: { change: 'salt' } },
      ),
    'what was put back is weighed in again elsewhere': async (x) => {
      const make = await b.begun('white', at('03:40'), { formulaVersion: version });
      return weigh(make, [[b, x.make, '10']], '03:45');
    },
  };
  const unlessRefused = (error: unknown): void => {
    if (!String(error).includes('"as":"refused"')) throw error;
  };

  /** Lots at which the look-up says that a concern may begin and that are not on watch; and what the list and the standing of every lot say. */
  async function seen() {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    return inBook(async (c) => {
      const all = 'watched(lot) AS MATERIALIZED (SELECT id FROM lot)';
      const { rows: missing } = await c.query(
        `WITH ${all} SELECT * FROM (${concernBegins}) o WHERE lot NOT IN (SELECT id FROM on_watch WHERE organisation = $1)`,
        [b.house.organisation],
      );
      const { held } = await heldLots(c, books, b.house.organisation, now);
      const { rows } = await c.query<{ id: string }>('SELECT id FROM lot WHERE organisation = $1', [b.house.organisation]);
      const { standings } = await followedStandingOf(
        c,
        books,
        rows.map((r) => r.id),
        now,
      );
      const standing = [...standings].filter(([, s]) => !s.gone && s.concerns.length > 0).map(([lot]) => lot);
      return { missing, listed: [...held.keys()].sort(), standing: standing.sort() };
    });
  }

  it('is on the list whatever is recorded late, once everything was let go', async () => {
    const step = fc.tuple(fc.constantFrom(...Object.keys(actions)), fc.nat(5));
    const property = fc.asyncProperty(fc.array(step, { minLength: 2, maxLength: 6 }), async (steps) => {
      const from = await keptDough(b, at('01:00'), version);
      const made = await bloomersOf(b, version, { flour: '10000', back: '1000', from });
      for (const [name, n] of steps) {
        await everythingOver();
        await actions[name]?.({ ...made, from }, n).catch(unlessRefused);
        const { missing, listed, standing } = await seen();
        expect([name, missing, listed]).toEqual([name, [], standing]);
      }
    });
    await fc.assert(property, {
      numRuns: size(6, 30),
      examples: [[[['something was put back into what was put back', 0]]], [[['what was put back was ended', 1]]]],
    });
  });
});
