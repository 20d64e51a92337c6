import { openThings, type TraceView } from '@bakehouse/contracts';
import { snapshotOf } from '@bakehouse/records';
import { inStock, lookupOf, onHandOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

const now = '2026-11-25T09:00:00.000Z';

/** Almonds to be used by yesterday and by today, some that are all used, and baps with a use-by date that is over: nobody used or sent any of it late. */
describe('what stands past its use-by date', () => {
  let t: TestApp;
  let b: Bakehouse;
  let late: string;
  let today: string;
  let batch: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    late = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-24' });
    today = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-25' });
    const gone = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-24' });
    await b.baker.record('lot-counted', { lot: gone, place: null, quantity: g('0') }, { at: at('02:00', '2026-11-22') });
    const make = await b.begun('white', at('01:00', '2026-11-22'));
    const flour = await b.delivered('flour', at('00:10', '2026-11-20'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1900', flour)] }, { at: at('01:05', '2026-11-22') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 20 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10', '2026-11-22') });
    const counted = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-22', bestBefore: null, useBy: '2026-11-23' };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00', '2026-11-22') })).id;
  });
  afterAll(() => t.close());

  it('is on the list of what waits for somebody, without what is gone and what may be used today', async () => {
    const { pastUseBy, held } = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    expect(pastUseBy.map((l) => [l.lot, l.name, l.useBy, l.trouble])).toEqual([
      [batch, 'bap', '2026-11-23', 'expired-lot-used'],
      [late, expect.any(String), '2026-11-24', 'expired-lot-used'],
    ]);
    expect(held).toEqual([]);
  });

  it('says so where it is offered on a tablet, to be used or sent out', async () => {
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    expect(onHandOf(lookup).flatMap((p) => p.lots.map((l) => [l.id, l.trouble]))).toEqual([[batch, 'expired-lot-used']]);
    const stock = new Map(inStock(lookup).map((l) => [l.id, l.trouble]));
    expect([stock.get(late), stock.get(today)]).toEqual(['expired-lot-used', null]);
  });
});

/** Cream to be used by yesterday: in a tub, in the own shop as baps that were filled with it in time, at another site, and as what a lot that nobody knew turned out to be. */
describe('what keeps no longer than something else', () => {
  let t: TestApp;
  let b: Bakehouse;
  let steps: string;
  let [tub, unnamed, elsewhere, baps] = ['', '', '', ''];
  const pastAt = async (site: string) =>
    openThings
      .parse((await b.lead.caller.get(`/sites/${site}/open`).expect(200)).body)
      .pastUseBy.map((l) => [l.lot, l.useBy, l.shelves.inShop?.amount ?? null]);
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    steps = b.house.created.sites[1] ?? '';
    const there = new Hand(b.house, b.lead.caller, steps);
    const administrator = new Hand(b.house, b.house.administrator);
    const vessel = (
      await administrator.record('place-in-use', { name: 'Tub', type: 'vessel', within: null }, { at: at('00:10', '2026-11-20') })
    ).id;
    const cream = await b.delivered('almond', at('00:20', '2026-11-22'), { useBy: '2026-11-24' });
    const added = [{ material: b.material('almond'), lot: cream, quantity: g('300'), how: 'weighed' as const }];
    const toppedUp = { vessel, material: b.material('almond'), kept: null, keptHow: 'weighed' as const, added };
    tub = (await b.baker.record('vessel-topped-up', toppedUp, { at: at('01:00', '2026-11-22') })).id;
    await b.baker.record('lot-counted', { lot: cream, place: null, quantity: g('0') }, { at: at('01:10', '2026-11-22') });
    elsewhere = b.newId();
    const came = {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [b.line('almond', elsewhere, { useBy: '2026-11-23' })],
    };
    await there.record('delivery-received', came, { at: at('01:00', '2026-11-21') });
    unnamed = b.newId();
    const unknown = {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [b.line('almond', unnamed, { code: null, codeState: 'not-known-yet' })],
    };
    await b.baker.record('delivery-received', unknown, { at: at('01:30', '2026-11-22') });
    await b.baker.record(
      'lot-identified',
      { lot: unnamed, code: null, same: elsewhere, delivery: null },
      { at: at('02:00', '2026-11-23') },
    );
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05', '2026-11-20') });
    const make = await b.begun('white', at('01:00', '2026-11-23'));
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '900', await b.delivered('flour', at('00:10', '2026-11-20')))] },
      { at: at('01:05', '2026-11-23') },
    );
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 10 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10', '2026-11-23') });
    const counted = { run, loads: [], pieces: 10, rejects: 0, code: 'BAP-2', bakedOn: '2026-11-23', bestBefore: null, useBy: '2026-11-24' };
    baps = (await b.baker.record('batch-counted-out', counted, { at: at('02:00', '2026-11-23') })).id;
    await b.lead.record('released-by-exception', { batch: baps }, { at: at('04:00', '2026-11-23'), words: { why: 'tasted' } });
    const lines = [{ lots: [baps], quantity: pieces(10), how: 'counted' as const }];
    await b.baker.record(
      'sent-out',
      { channel: 'own-shop', customer: shop, unattended: false, until: null, lines },
      { at: at('05:00', '2026-11-23') },
    );
  });
  afterAll(() => t.close());

  it('is on the list of where it is: what is in a vessel, what a lot turned out to be, and what is all in the shop at the shop', async () => {
    expect(await pastAt(b.site)).toEqual([
      [unnamed, '2026-11-23', null],
      [tub, '2026-11-24', null],
    ]);
    expect(await pastAt(steps)).toEqual([
      [elsewhere, '2026-11-23', null],
      [baps, '2026-11-24', 10],
    ]);
  });

  it('is not offered where none is left, and is where the shop is', async () => {
    const there = async (site: string) => {
      const { rows } = (await b.lead.caller.get(`/sites/${site}/night`).expect(200)).body;
      const [bap] = onHandOf(lookupOf(snapshotOf(rows), now, 'Europe/London', site));
      return bap?.lots.map((l) => [l.id, l.left, l.here, l.trouble]);
    };
    expect(await there(b.site)).toEqual([[baps, 0, false, 'expired-lot-used']]);
    expect(await there(steps)).toEqual([[baps, 10, true, 'expired-lot-used']]);
  });

  it.each([
    ['a vessel', () => tub, '2026-11-24'],
    ['what was named', () => unnamed, '2026-11-23'],
    ['the shop', () => baps, '2026-11-24'],
  ])('is said in a trace of what is on hand: %s', async (_what, lot, useBy) => {
    const { onHand }: TraceView = (await b.lead.caller.get(`/lots/${lot()}/trace`).expect(200)).body;
    expect(onHand.map((o) => [o.lot, o.pastUseBy])).toEqual([[lot(), useBy]]);
  });
});
