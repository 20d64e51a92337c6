import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

/** Baps made at one site and sent to the shop, where they get icing. */
describe('something that is put on pieces at a shop of the house', () => {
  let t: TestApp;
  let b: Bakehouse;
  let inShop: Hand;
  let sugar: string;
  let [make, run, batch] = ['', '', ''];

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T12:00:00.000Z') });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    const steps = b.house.created.sites[1] ?? '';
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    make = await b.begun('white', at('01:00'));
    const flour = await b.delivered('flour', at('00:10'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1000', flour)] }, { at: at('01:05') });
    run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('45'), pieces: 10 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 8, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    const lines = [batch, run].map((lot) => ({ lots: [lot], quantity: pieces(2), how: 'counted' as const }));
    await b.baker.record('sent-out', { channel: 'own-shop', customer: shop, unattended: false, until: null, lines }, { at: at('05:00') });
    inShop = new Hand(b.house, b.lead.caller, steps);
    sugar = b.newId();
    const received = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [b.line('flour', sugar)] };
    await inShop.record('delivery-received', received, { at: at('05:10') });
  });
  afterAll(() => t.close());

  it.each(['batch', 'run', 'make'] as const)('is recorded for a %s that the other site made, and traced', async (targetType) => {
    const target = { batch, run, make }[targetType];
    const line = { material: b.material('flour'), lot: sugar, quantity: g('60'), how: 'weighed' as const };
    await inShop.record('added-on', { targetType, target, afterOven: true, lines: [line] }, { at: at('06:00') });
    const { body } = await b.lead.caller.get(`/lots/${sugar}/trace`).expect(200);
    expect(body.lots.map((l: { readonly id: string }) => l.id)).toContain(target);
  });

  it('is refused for what is not of its type', async () => {
    const line = { material: b.material('flour'), lot: sugar, quantity: g('60'), how: 'weighed' as const };
    const wrong = { targetType: 'make' as const, target: run, afterOven: true, lines: [line] };
    await expect(inShop.record('added-on', wrong, { at: at('06:00') })).rejects.toThrow('unknown-subject');
  });
});
