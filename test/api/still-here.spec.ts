import { collections, watchedInTheHouse } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { ClientBase } from 'pg';
import { cameAndStillHere, inTheHouse } from '../../apps/api/src/modules/night/in-the-house.query.js';
import { standingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books, type BookRef } from '../../apps/api/src/platform/ledger/index.js';
import { letGo, watchAll } from '../../apps/api/src/platform/ledger/on-watch.js';
import { stillHere } from '../../apps/api/src/platform/ledger/still-here.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { size } from '../support/size.js';

const now = '2026-11-25T20:00:00.000Z';
/** A night for which all that was recorded is from before. */
const later = '2026-11-30T00:00:00.000Z';

interface Bread {
  readonly flour: string;
  readonly run: string;
  readonly batch: string;
}

describe('what may still be here', () => {
  let t: TestApp;
  let b: Bakehouse;
  let site: BookRef;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    site = await t.app.get(Books, { strict: false }).site(b.house.organisation, b.site);
  });
  afterAll(() => t.close());

  const inBook = <T>(work: (client: ClientBase) => Promise<T>): Promise<T> =>
    t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, work);
  const idsOf = async (c: ClientBase, text: string, values: readonly string[]): Promise<string[]> =>
    (await c.query<{ lot: string }>(text, [...values])).rows.map((r) => r.lot).sort();
  const everythingOver = () => inBook((c) => letGo(c, b.house.organisation, null));
  /** What a night of later shows although it is older, and what it may open. */
  const listed = () =>
    inBook(async (c) => ({
      older: [...(await inTheHouse(c, site, later)).lots].sort(),
      came: await idsOf(c, cameAndStillHere, [site.organisation, site.id]),
    }));

  async function baked(): Promise<Bread> {
    const flour = await b.delivered('flour', at('01:00'));
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', flour)] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const out = { run, loads: [], pieces: 8, rejects: 0, code: `B-${run.slice(-6)}`, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    const batch = (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
    return { flour, run, batch };
  }
  const sent = (lot: string, count: number, customer: string, time = '06:00') => {
    const lines = [{ lots: [lot], quantity: pieces(count), how: 'counted' as const }];
    return b.baker.record('sent-out', { channel: 'dispatch', customer, unattended: false, until: null, lines }, { at: at(time) });
  };
  const emptied = (lot: string, left: string | null, time: string) =>
    b.baker.record('lot-emptied', { station: b.place('bench'), lot, left: left === null ? null : g(left) }, { at: at(time) });
  const withdraw = (corrects: string) => b.lead.record('entry-withdrawn', {}, { corrects, words: { reason: 'typed twice' } });
  const isShop = (party: string, type: 'own-shop' | 'customer', time: string) =>
    b.house.decide({
      kind: 'party-accepted',
      payload: { party, type, vulnerable: false, unattended: false },
      words: { name: 'Harbour Steps' },
      at: at(time),
    });

  it('is a batch until it was sent out, and again once that is withdrawn', async () => {
    const { batch } = await baked();
    expect((await listed()).older).toContain(batch);
    const { id } = await sent(batch, 8, b.party('cafeA'));
    await everythingOver();
    await withdraw(id);
    expect((await listed()).older).toContain(batch);
  });

  it('is flour that ran out at a station, which says nothing of the store; not what a count found nothing of, until that is withdrawn', async () => {
    const { flour } = await baked();
    const { flour: store } = await baked();
    await emptied(store, '0', '07:00');
    await emptied(flour, null, '07:00');
    const { id } = await b.baker.record('lot-counted', { lot: flour, place: null, quantity: g('0') }, { at: at('07:10') });
    await everythingOver();
    const { came } = await listed();
    expect(came).not.toContain(flour);
    expect(came).toContain(store);
    const rows = await b.night();
    expect(rows.lot.map((l) => l.id)).toEqual(expect.arrayContaining([flour, store])); // a night tells of what it counted itself
    await withdraw(id);
    expect((await listed()).came).toContain(flour);
  });

  it('is what went to a customer who turns out to be a shop of the house', async () => {
    const { batch } = await baked();
    const shop = b.newId();
    await isShop(shop, 'customer', '00:05');
    await sent(batch, 8, shop);
    await everythingOver();
    const noted = (c: ClientBase) => idsOf(c, 'SELECT id AS lot FROM still_here WHERE organisation = $1', [site.organisation]);
    expect(await inBook(noted)).not.toContain(batch);
    await isShop(shop, 'own-shop', '00:10');
    expect(await inBook(noted)).toContain(batch);
  });

  it('names every table by whose rows a lot may be here again', () => {
    const asked = Object.entries(collections).filter(([, { name }]) => new RegExp(`FROM "?${name}"?[ )]`).test(stillHere));
    expect(asked.length).toBeGreaterThan(9);
    expect(asked.map(([collection]) => collection).filter((collection) => !watchedInTheHouse.has(collection))).toEqual([]);
  });

  /** Each of bread that everything was let go of before; what may be withdrawn later is noted. */
  type Action = (x: Bread, n: number) => Promise<{ readonly id: string }>;
  const actions: Readonly<Record<string, Action>> = {
    'some or all of it is sent to a customer': (x, n) => sent(x.batch, n % 3 === 0 ? 3 : 8, b.party('cafeA'), `06:${10 + n}`),
    'some comes back': (x, n) => {
      const disposition = n % 2 === 0 ? ('on-hand' as const) : ('waste' as const);
      const of = { lot: x.batch, departure: null, customer: null, how: 'counted' as const, disposition };
      return b.baker.record('goods-returned', { ...of, quantity: pieces(2) }, { at: at(`07:${10 + n}`) });
    },
    'it is counted': (x, n) => {
      const lot = [x.batch, x.run, x.flour][n % 3] ?? '';
      const found = n % 2 === 0 ? '0' : '2';
      const quantity = lot === x.flour ? g(found) : pieces(Number(found));
      return b.baker.record('lot-counted', { lot, place: n % 4 === 0 ? b.place('bench') : null, quantity }, { at: at(`07:${30 + n}`) });
    },
    'the rest of the run is loaded or counted out': (x, n) => {
      const of = { run: x.run, pieces: 4 };
      const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: '2026-11-25', setting: null, minutes: 28 };
      const out = { loads: [], rejects: 0, code: `C-${b.newId().slice(-6)}`, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
      return n % 2 === 0
        ? b.baker.record('load-in', { ...oven, lines: [{ ...of, pieces: 12 }] }, { at: at('04:40') })
        : b.baker.record('batch-counted-out', { ...of, ...out }, { at: at('05:30') });
    },
    'the flour is opened': (x, n) =>
      b.baker.record(
        'lot-opened',
        { station: b.place('bench'), material: b.material('flour'), lot: x.flour, beside: n % 2 === 0 },
        { at: at(`08:${10 + n}`) },
      ),
    'the flour is emptied': (x, n) => emptied(x.flour, n % 3 === 0 ? null : '0', `08:${20 + n}`),
  };

  it('hides nothing once it was let go, and lets no lot go that is not surely gone', async () => {
    const step = fc.tuple(fc.constantFrom(...Object.keys(actions), 'the last is withdrawn'), fc.nat(9));
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    const property = fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 8 }), async (steps) => {
      const bread = await baked();
      const done: string[] = [];
      for (const [name, n] of steps) {
        await everythingOver();
        const last = name === 'the last is withdrawn' ? done.pop() : undefined;
        if (last !== undefined) await withdraw(last);
        await actions[name]?.(bread, n).then(({ id }) => done.push(id), unlessRefused);
        const some = await listed();
        await everythingOver();
        const fewer = await listed();
        const { standings } = await inBook((c) => standingOf(c, books, [bread.flour], now));
        if (!fewer.came.includes(bread.flour)) expect([name, standings.get(bread.flour)?.gone]).toEqual([name, true]);
        await inBook((c) => watchAll(c, b.house.organisation));
        const all = await listed();
        expect([name, some, fewer]).toEqual([name, all, all]);
      }
    });
    await fc.assert(property, { numRuns: size(6, 30) });
  });

  it('is the newest where nobody counts, and how many more there are is said', async () => {
    await baked();
    const before = await inBook((c) => inTheHouse(c, site, later));
    const noted = await inBook((c) =>
      idsOf(c, "SELECT id AS lot FROM still_here WHERE organisation = $1 AND type = 'run'", [site.organisation]),
    );
    const runsOfOld = noted.filter((lot) => before.lots.includes(lot));
    const newer: string[] = [];
    for (const minute of ['31', '32', '33', '34']) {
      const make = await b.begun('white', at(`02:${minute}`));
      const of = { product: b.material('bloomer'), heads: null, pieces: 1, scaling: g('10') };
      const runs = Array.from({ length: 25 }, () => ({ run: b.newId(), ...of }));
      newer.push(...runs.map((r) => r.run));
      await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:40') });
    }
    const { lots, leftOut } = await inBook((c) => inTheHouse(c, site, later));
    expect(before.leftOut).toBe(0);
    expect(leftOut).toBe(runsOfOld.length);
    expect(lots).toEqual(expect.arrayContaining(newer));
    expect(lots.filter((lot) => runsOfOld.includes(lot))).toEqual([]);
  });

  /** A random step may be one that the door refuses. */
  function unlessRefused(error: unknown): void {
    if (!String(error).includes('"as":"refused"')) throw error;
  }
});
