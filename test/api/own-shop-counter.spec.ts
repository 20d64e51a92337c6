import type { CounterView, OpenThings, RecallView, TraceView } from '@bakehouse/contracts';
import { foundSinceRelease, lookupOf } from '@bakehouse/views';
import { snapshotOf } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { toldNobody } from '../fixtures/recalls.js';

const now = '2026-11-25T08:00:00.000Z';

/**
 * Seventy-two baps: sixty-four go to a café, eight to the own shop, which is a site of its own and puts them on its counter. Then their flour is recalled.
 */
describe('what stands on the counter of the own shop when it is recalled', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  let steps: string;
  let recall: string;
  const sent = (channel: 'own-shop' | 'dispatch' | 'stall', customer: string | null, count: number, time: string) =>
    b.baker.record(
      'sent-out',
      { channel, customer, unattended: false, until: null, lines: [{ lots: [batch], quantity: pieces(count), how: 'counted' }] },
      { at: time },
    );
  const trace = async (): Promise<TraceView> => (await b.lead.caller.get(`/lots/${batch}/trace`).expect(200)).body;
  const theCase = async (): Promise<RecallView> => (await b.owner.caller.get(`/recalls/${recall}`).expect(200)).body;
  const lookupAt = async (site: string) =>
    lookupOf(snapshotOf((await b.lead.caller.get(`/sites/${site}/night`).expect(200)).body.rows), now, 'Europe/London', site);

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    steps = b.house.created.sites[1] ?? '';
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'The shop at the steps' }, at: at('00:05') });
    const flour = await b.delivered('flour', at('00:10'));
    const make = await b.begun('white', at('01:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '6000', flour)] }, { at: at('01:05') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 75 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 75, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    await sent('own-shop', shop, 8, at('05:00'));
    await sent('dispatch', b.party('cafeA'), 64, at('05:10'));
    await sent('stall', null, 3, at('05:20'));
    await b.lead.record('released-by-exception', { batch }, { at: at('05:30'), words: { why: 'baked through' } });
    const on = b.house.entry({ kind: 'put-on-counter', payload: { lot: batch, way: 'on', pieces: 8 }, at: at('06:00') });
    const { body } = await b.lead.caller.post(`/sites/${steps}/entries`, [on]).expect(200);
    expect(body).toMatchObject([{ as: 'recorded' }]);
    recall = b.newId();
    const of = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', of).expect(200);
  });
  afterAll(() => t.close());

  it('is in one place, counted once: eight on the counter there, and nowhere else', async () => {
    const { onHand } = await trace();
    expect(onHand).toMatchObject([
      { amount: 8, site: 'Harbour Steps', inStore: null, shelves: { inShop: null, onCounter: [{ siteName: 'Harbour Steps', pieces: 8 }] } },
    ]);
  });

  it('is not gone as well: what went and what is here are what was made', async () => {
    const { ends, onHand } = await trace();
    const gone = ends.filter((e) => !e.stays).reduce((n, e) => n + (e.pieces ?? 0), 0);
    expect([gone, gone + onHand.reduce((n, o) => n + (o.amount ?? 0), 0)]).toEqual([67, 75]);
  });

  it('has the three of the stall among what was sold to people nobody can name', async () => {
    const { counter } = await trace();
    expect(counter.map((w) => [w.way, w.site, w.pieces]).sort()).toEqual([
      ['counter', 'Harbour Steps', 8],
      ['stall', 'Mill Lane', 3],
    ]);
  });

  it('is on the list of what is on hold of both sites, with the counter by its name', async () => {
    for (const site of [b.site, steps]) {
      const { held }: OpenThings = (await b.lead.caller.get(`/sites/${site}/open`).expect(200)).body;
      expect(held.find((h) => h.lot === batch)?.shelves).toMatchObject({
        inShop: null,
        onCounter: [{ siteName: 'Harbour Steps', pieces: 8 }],
      });
    }
    const view: CounterView = (await request(t.server).get(`/api/v1/counter/${steps}`).expect(200)).body;
    expect(view.held).toMatchObject([{ lot: batch, since: '2026-11-25T06:00:00.000Z', pieces: 8 }]);
  });

  it('is said on the first screen of the shop as what is there: eight to take off, not what was made elsewhere', async () => {
    expect(foundSinceRelease(await lookupAt(steps))).toMatchObject([{ code: 'BAP-1', here: 8, onSale: true, mayHaveLeft: false }]);
    expect(foundSinceRelease(await lookupAt(b.site))).toMatchObject([{ code: 'BAP-1', here: 0, onSale: false, mayHaveLeft: true }]);
  });

  it('has its case on the page of the lot, with who was told in it', async () => {
    const before = await trace();
    expect(before.cases).toMatchObject([{ id: recall, practice: false, closedAt: null, told: 0 }]);
    expect(before.hazard).toBe('physical');
    await new Hand(b.house, b.lead.caller, null).record(
      'recall-contact-made',
      { recall, party: b.party('cafeA'), answer: 'told', piecesHeld: 3 },
      { at: at('07:50') },
    );
    const after = await trace();
    expect(after.cases).toMatchObject([{ id: recall, told: 1 }]);
    expect(after.contacts.map((c) => [c.party, c.reached])).toEqual([[b.party('cafeA'), true]]);
  });

  it('is on hold by a case on the pack, which does not say that nothing was put on hold', async () => {
    const { bytes } = await fileFrom(b.lead.caller, `/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toContain('BAP-1');
    expect(text).not.toContain('Nothing was put on hold');
    expect(text).toContain('Nobody placed or lifted a hold by hand in this period. What a recall case, a deviation');
  });

  it('is what the contact list begins with on paper', async () => {
    expect((await theCase()).trace.onHand.find((o) => o.lot === batch)).toMatchObject({ site: 'Harbour Steps', amount: 8 });
    const { bytes } = await fileFrom(b.owner.caller, `/recalls/${recall}/papers/contacts.pdf`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toContain('First: clear our own counters');
    expect(text).toContain('on the counter at Harbour Steps: 8 pieces, take them off');
  });

  it('stays on hold by its case after that was closed, and the list of cases says how many are', async () => {
    const held = async () =>
      (await b.lead.caller.get('/recalls').expect(200)).body.map((c: { id: string; held: number }) => [c.id, c.held]);
    const { undecided } = await theCase();
    expect(await held()).toEqual([[recall, undecided.length]]);
    await new Hand(b.house, b.owner.caller, null).record(
      'recall-closed',
      { recall, staysOnHold: undecided.map((u) => u.lot), notReached: [] },
      { at: at('07:59'), words: { ...toldNobody, conclusion: 'the mill was wrong', why: 'to be looked through' } },
    );
    expect(undecided.length).toBeGreaterThan(1);
    expect(await held()).toEqual([[recall, undecided.length]]);
  });
});
