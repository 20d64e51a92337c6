import type { CounterView, InspectionView, OpenThings, TraceView } from '@bakehouse/contracts';
import { snapshotOf } from '@bakehouse/records';
import { lookupOf, onHandOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';

/** Twenty baps, twelve of them sent to the own shop, five put on the counter here; then they are put on hold. */
describe('what is in the own shop or on the counter', () => {
  const clock = new SettableClock('2026-11-25T08:00:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  let steps: string;
  let shop: string;
  let frozen: string;
  const send = (channel: 'own-shop' | 'dispatch' | 'counter', count: number, customer: string | null, time: string) =>
    b.baker.record(
      'sent-out',
      { channel, customer, unattended: false, until: null, lines: [{ lots: [batch], quantity: pieces(count), how: 'counted' }] },
      { at: time },
    );
  const trace = async (): Promise<TraceView> => (await b.lead.caller.get(`/lots/${batch}/trace`).expect(200)).body;

  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    steps = b.house.created.sites[1] ?? '';
    shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    const make = await b.begun('white', at('01:00'));
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '1900', await b.delivered('flour', at('00:10')))] },
      { at: at('01:05') },
    );
    const run = b.newId();
    frozen = b.newId();
    const of = { product: b.material('bap'), heads: null, scaling: g('75') };
    const runs = [
      { ...of, run, pieces: 20 },
      { ...of, run: frozen, pieces: 5 },
    ];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    await send('own-shop', 12, shop, at('05:00'));
    await send('dispatch', 3, b.party('cafeA'), at('05:10'));
    await b.baker.record('put-on-counter', { lot: batch, way: 'on', pieces: 5 }, { at: at('06:00') });
    await b.lead.record('hold-placed', { lot: batch, deviation: null }, { at: at('07:00'), words: { because: 'glass' } });
  });
  afterAll(() => t.close());

  it('is in the house and nobody to ring, in a trace', async () => {
    const found = await trace();
    expect(found.onHand).toMatchObject([
      { lot: batch, amount: 17, shelves: { inShop: { amount: 12, measure: 'pieces' }, onCounter: [{ site: b.site, pieces: 5 }] } },
    ]);
    expect(found.contacts.map((c) => c.name)).toEqual(['Café at the lock']);
  });

  it('is on the list of what is on hold, with where it may be bought', async () => {
    const { held }: OpenThings = (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;
    expect(held.find((h) => h.lot === batch)?.shelves).toMatchObject({ inShop: { amount: 12 }, onCounter: [{ pieces: 5 }] });
  });

  it('is seen at the shop that is a site of its own: on its list of what is on hold, on its counter’s page, on its tablets', async () => {
    const { held }: OpenThings = (await b.lead.caller.get(`/sites/${steps}/open`).expect(200)).body;
    expect(held.map((h) => [h.lot, h.shelves.inShop?.amount])).toEqual([[batch, 12]]);
    const view: CounterView = (await request(t.server).get(`/api/v1/counter/${steps}`).expect(200)).body;
    expect(view.held).toEqual([{ lot: batch, name: 'bap', code: 'BAP-1', pieces: 12, shop: 'Harbour Steps', since: null }]);
    const { rows } = (await b.lead.caller.get(`/sites/${steps}/night`).expect(200)).body;
    const [bap] = onHandOf(lookupOf(snapshotOf(rows), '2026-11-25T08:00:00.000Z', 'Europe/London', steps));
    expect(bap?.lots).toMatchObject([{ id: batch, left: 12, trouble: 'held-lot-used' }]);
  });

  it('stays there whatever the shop writes that it sent to itself, and is what the shop counted', async () => {
    const inShop = async (kind: 'sent-out' | 'lot-counted', payload: unknown): Promise<string> => {
      const entry = { ...b.house.entry({ kind: 'lot-counted', payload: { lot: batch, place: null, quantity: pieces(1) } }), kind, payload };
      const { body } = await b.lead.caller.post(`/sites/${steps}/entries`, [entry]).expect(200);
      expect(body).toMatchObject([{ as: 'recorded' }]);
      return entry.id;
    };
    const line = { lots: [batch], quantity: pieces(1), how: 'counted' };
    const toItself = { channel: 'own-shop', customer: shop, unattended: false, until: null, lines: [line] };
    await inShop('sent-out', toItself);
    const held = async (site: string) => (await b.lead.caller.get(`/sites/${site}/open`).expect(200)).body.held;
    for (const site of [steps, b.site])
      expect((await held(site)).map((h: OpenThings['held'][number]) => [h.lot, h.shelves.inShop?.amount])).toEqual([[batch, 12]]);
    expect(await trace()).toMatchObject({ onHand: [{ amount: 17 }] });
    const count = await inShop('lot-counted', { lot: batch, place: null, quantity: pieces(9) });
    expect(await trace()).toMatchObject({ onHand: [{ amount: 14, shelves: { inShop: { amount: 9 } } }] });
    expect((await trace()).suspectBalances[0]?.balance).toMatchObject({ onHand: { amount: 14 }, unaccounted: 3 });
    await b.lead.caller
      .post(`/sites/${steps}/entries`, [
        b.house.entry({ kind: 'entry-withdrawn', payload: {}, corrects: count, words: { reason: 'miscounted' } }),
      ])
      .expect(200);
    expect(await trace()).toMatchObject({ onHand: [{ amount: 17 }] });
  });

  it('is said loudly on the counter’s page, and with every answer', async () => {
    const view: CounterView = (await request(t.server).get(`/api/v1/counter/${b.site}`).expect(200)).body;
    expect(view.held).toEqual([{ lot: batch, name: 'bap', code: 'BAP-1', pieces: 5, shop: null, since: '2026-11-25T06:00:00.000Z' }]);
    expect(view.products.find((p) => p.name === 'bap')).toMatchObject({ onCounter: true, onHold: true });
  });

  it('stands as on hold on the officer’s page', async () => {
    const view: InspectionView = (await b.lead.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
    expect(view.batches.find((x) => x.id === batch)).toMatchObject({ standing: 'on-hold', release: null });
  });

  it('has each piece once: what the shop sold is no longer there, and never twice gone', async () => {
    await send('counter', 12, null, at('07:30'));
    const found = await trace();
    expect(found.onHand).toMatchObject([{ lot: batch, amount: 5 }]);
    expect(found.doesNotAddUp).toEqual([]);
  });

  it('is with the tablet weeks later, to be sent out or taken back, as long as it is in the house', async () => {
    clock.set('2026-12-10T08:00:00Z');
    await b.signOnAgain();
    const snapshot = await b.night();
    const [bap] = onHandOf(lookupOf(snapshot, '2026-12-10T08:00:00.000Z', 'Europe/London', b.site));
    expect(bap?.lots).toMatchObject([{ id: batch, trouble: 'held-lot-used' }]);
    expect(snapshot.run.map((r) => r.id)).toContain(frozen);
    expect(snapshot.make).toHaveLength(1);
    expect(snapshot.departure.filter((d) => d.customer === b.party('cafeA'))).toHaveLength(1);
  });
});
