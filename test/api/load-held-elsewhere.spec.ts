import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

/** Ten baps of one load at the bakehouse, five of them at the house's shop, and a deviation about that load that holds what was baked in it. */
describe('bread of a load that a deviation of another site holds', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  let inShop: Hand;

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T09:00:00Z') });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    const make = await b.begun('white', at('01:00'));
    const flour = await b.delivered('flour', at('00:10'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1000', flour)] }, { at: at('01:05') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('45'), pieces: 10 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: '2026-11-25', setting: null, minutes: 12 };
    const into = { ...oven, lines: [{ run, pieces: 10 }] };
    const load = (await b.baker.record('load-in', into, { at: at('02:00') })).id;
    const counted = { run, loads: [load], pieces: 10, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:30') })).id;
    const lines = [{ lots: [batch], quantity: pieces(5), how: 'counted' as const }];
    await b.baker.record('sent-out', { channel: 'own-shop', customer: shop, unattended: false, until: null, lines }, { at: at('05:00') });
    const about = { subjectType: 'load', subject: load, class: 'ccp', holds: true } as const;
    await b.lead.record('deviation-reported', about, { at: at('05:10'), words: { what: 'the oven went out' } });
    inShop = new Hand(b.house, b.lead.caller, b.house.created.sites[1] ?? '');
  });
  afterAll(() => t.close());

  it('is told of where it is put on the counter and sold', async () => {
    const on = await inShop.record('put-on-counter', { lot: batch, way: 'on', pieces: 3 }, { at: at('06:00') });
    expect(on.outcome.troubles).toContain('held-lot-used');
    const lines = [{ lots: [batch], quantity: pieces(1), how: 'counted' as const }];
    const sold = { channel: 'counter', customer: null, unattended: false, until: null, lines } as const;
    const { outcome } = await inShop.record('sent-out', sold, { at: at('06:10') });
    expect(outcome.lines.flatMap((l) => l.troubled.map((x) => x.trouble))).toContain('held-lot-used');
  });
});
