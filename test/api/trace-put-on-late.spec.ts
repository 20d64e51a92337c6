import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

/** 20 baps, of which 5 had gone to one customer when 60 g of a glaze were put on the other 15; then 5 went to another. By hand: 4 g on each of the 15. */
describe('pieces that had left before something was put on', () => {
  let t: TestApp;
  let b: Bakehouse;
  let glaze: string;
  let batch: string;
  let trace: TraceView;

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T12:00:00Z') });
    b = await Bakehouse.found(t);
    const flour = await b.delivered('flour', at('00:10'));
    glaze = await b.delivered('flour', at('00:20'));
    const make = await b.begun('white', at('01:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1500', flour)] }, { at: at('01:05') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const out = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', out, { at: at('02:00') })).id;
    const send = (customer: string, time: string) =>
      b.baker.record(
        'sent-out',
        {
          channel: 'dispatch',
          customer,
          unattended: false,
          until: null,
          lines: [{ lots: [batch], quantity: { figure: '5', unit: 'piece' }, how: 'counted' }],
        },
        { at: at(time) },
      );
    // Recorded in another order than they happened in.
    await send(b.ids.parties.cafeA, '04:00');
    const line = { material: b.material('flour'), lot: glaze, quantity: g('60'), how: 'weighed' as const };
    await b.baker.record('added-on', { targetType: 'batch', target: batch, afterOven: true, lines: [line] }, { at: at('03:00') });
    await send(b.ids.parties.school, '02:30');
    // On the counter by then: what is sold there may be without it.
    await b.baker.record('put-on-counter', { lot: batch, way: 'on', pieces: 4 }, { at: at('02:50') });
    const sold = { figure: '2', unit: 'piece' as const };
    const lines = [{ lots: [batch], quantity: sold, how: 'counted' as const }];
    await b.baker.record('sent-out', { channel: 'counter', customer: null, unattended: false, until: null, lines }, { at: at('05:00') });
    trace = (await b.lead.caller.get(`/lots/${glaze}/trace`).expect(200)).body;
  });
  afterAll(() => t.close());

  it('do not surely have it, and the others do', () => {
    const certain = new Map(trace.ends.map((e) => [e.customer, e.certain]));
    expect(certain.get(b.ids.parties.school)).toBe(false);
    expect(certain.get(b.ids.parties.cafeA)).toBe(true);
    expect(new Map(trace.contacts.map((c) => [c.party, c.lines.map((l) => l.certain)]))).toEqual(
      new Map([
        [b.ids.parties.school, [false]],
        [b.ids.parties.cafeA, [true]],
      ]),
    );
  });
  it('are perhaps among what is sold over the counter where they stood by then', () => {
    expect(trace.ends.filter((e) => e.channel === 'counter').map((e) => e.certain)).toEqual([false]);
  });
  it('leave all of it on the batch', () => {
    const found = trace.lots.find((l) => l.id === batch);
    expect([found?.certain, found?.heldMinMg, found?.heldMaxMg]).toEqual([true, 60_000, 60_000]);
  });
});
