import type { TraceView } from '@bakehouse/contracts';
import { leftInLot, lookupOf, onHandOf, type Lookup } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

const now = '2026-11-25T09:00:00.000Z';

/** The balance of a trace, its list of what is in the house, and the tablet say of an amount either the same, or that nobody knows. */
describe('an amount in a trace', () => {
  let t: TestApp;
  let b: Bakehouse;
  let lookup: Lookup;
  let [counted, taken, batch, dried, soaked, tub] = ['', '', '', '', '', ''];

  const take = async (lot: string, grams: string | null, time: string, into?: string): Promise<string> => {
    const make = into ?? (await b.begun('white', at(time)));
    const line = { ...b.into('flour', grams ?? '1', lot), ...(grams === null ? { quantity: null } : {}) };
    await b.baker.record('weighed-in', { make, lines: [line] }, { at: at(time) });
    return make;
  };
  const send = (channel: 'own-shop' | 'counter', count: number | null, time: string) => {
    const lines = [{ lots: [batch], quantity: count === null ? null : pieces(count), how: 'counted' as const }];
    return b.baker.record('sent-out', { channel, customer: null, unattended: false, until: null, lines }, { at: at(time) });
  };
  const ends = (make: string, grams: string, time: string) =>
    b.baker.record('make-ended', { make, quantity: g(grams), how: 'weighed' }, { at: at(time) });

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    [counted, taken] = [await b.delivered('flour', at('00:10')), await b.delivered('flour', at('00:10'))];
    await b.baker.record('lot-counted', { lot: counted, place: null, quantity: g('6500') }, { at: at('01:00') });
    await take(counted, '500', '01:10');
    await take(counted, null, '01:20');
    await take(taken, null, '01:30');
    const flour = await b.delivered('flour', at('00:10'));
    // Dried: 1000 g, of which 100 g were taken before 700 g were weighed, 50 g since and 30 g put in. Soaked: 500 g that weigh 600 g.
    dried = await take(flour, '1000', '01:40');
    await take(dried, '100', '02:00');
    await ends(dried, '700', '02:10');
    await take(dried, '50', '02:20');
    await take(flour, '30', '02:30', dried);
    soaked = await take(flour, '500', '02:40');
    await ends(soaked, '600', '02:50');
    const dough = await take(flour, '1500', '03:00');
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }];
    await b.baker.record('divided', { make: dough, quantity: null, runs, oldDough: null, scrap: null }, { at: at('03:10') });
    const of = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', of, { at: at('04:00') })).id;
    await send('own-shop', null, '05:00');
    await send('counter', 3, '05:10');
    await b.baker.record('lot-counted', { lot: batch, place: null, quantity: pieces(10) }, { at: at('05:20') });
    const place = { name: 'Tub', type: 'vessel' as const, within: null };
    const vessel = (await new Hand(b.house, b.house.administrator).record('place-in-use', place, { at: at('00:10') })).id;
    const added = [{ material: b.material('flour'), lot: flour, quantity: g('900'), how: 'weighed' as const }];
    const filled = { vessel, material: b.material('flour'), kept: null, keptHow: 'weighed' as const, added };
    tub = (await b.baker.record('vessel-topped-up', filled, { at: at('06:00') })).id;
    await take(tub, '200', '06:10');
    lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
  });
  afterAll(() => t.close());

  const trace = async (lot: string): Promise<TraceView> =>
    (await b.lead.caller.get(`/lots/${lot}/trace?direction=forward`).expect(200)).body;
  const said = async (lot: string) => {
    const { onHand, suspectBalances } = await trace(lot);
    const [own] = suspectBalances;
    expect([lot, own?.balance.onHand?.amount ?? null]).toEqual([lot, onHand.find((o) => o.lot === lot)?.amount ?? null]);
    return { listed: onHand.find((o) => o.lot === lot)?.amount, balance: own?.balance };
  };

  it('is not known in any of them where a line without an amount came after the count, and at most what is left without it', async () => {
    const { listed, balance } = await said(counted);
    expect([listed, leftInLot(lookup, counted)]).toEqual([null, null]);
    expect(balance).toMatchObject({ onHand: null, atMost: 6_000_000, withoutAmount: 1, finding: expect.not.stringContaining('none') });
  });

  it('is not known where all that went has no amount', async () => {
    const { listed, balance } = await said(taken);
    expect([listed, leftInLot(lookup, taken)]).toEqual([null, null]);
    expect(balance).toMatchObject({ onHand: null, atMost: balance?.received, finding: 'unknown-amounts' });
  });

  it('is not three pieces too few in a shop that sold of what came without a number', async () => {
    const { listed, balance } = await said(batch);
    const left = onHandOf(lookup)
      .flatMap((p) => p.lots)
      .find((l) => l.id === batch);
    expect([listed, left?.inShop]).toEqual([null, null]);
    expect(balance).toMatchObject({ onHand: null, withoutAmount: 1 });
  });

  it.each<[string, () => string, number, object]>([
    // 700 weighed, 50 taken since, 30 put in; 1030 in all less 150 taken and 680 left are 200 lost.
    [
      'was weighed as it was made, also with what was taken before',
      () => dried,
      680_000,
      { received: 1_030_000, gone: 150_000, lost: 200_000 },
    ],
    ['weighed more in the end than went in', () => soaked, 600_000, { received: 600_000, lost: 0 }],
    ['is the content of a vessel', () => tub, 700_000, { received: 900_000, gone: 200_000 }],
  ])('is the same of what %s', async (_what, lot, left, balance) => {
    const found = await said(lot());
    expect([found.listed, leftInLot(lookup, lot())]).toEqual([left, left]);
    expect(found.balance).toMatchObject(balance);
  });
});
