import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { IfInstrumentOut } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

const bakeDay = '2026-11-25';

/** A probe that read the core of what was sent out and of what is still here, and the dough, which no food rests on. */
describe('what becomes doubtful if a thermometer goes out of use unchecked', () => {
  let t: TestApp;
  let b: Bakehouse;
  let instrument: string;
  const batches: string[] = [];
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(`${bakeDay}T09:00:00Z`) });
    b = await Bakehouse.found(t);
    const probe = { name: 'P7', type: 'probe', unit: 'degC', halfWidth: '0.5' } as const;
    instrument = (await new Hand(b.house, b.house.administrator).record('instrument-in-use', probe)).id;
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '11200')] }, { at: at('02:31') });
    await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25', { instrument }), { at: at('02:50') });
    for (const code of ['B-1', 'B-2']) {
      const run = b.newId();
      const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
      await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
      const [oven, lines] = [b.place('deckOven'), [{ run, pieces: 12 }]];
      const into = { oven, deck: null, plan: b.plan, bakeDay, setting: null, minutes: 28, lines };
      const load = (await b.baker.record('load-in', into, { at: at('04:00') })).id;
      await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95', { instrument }), { at: at('04:40') });
      const counted = { run, loads: [load], pieces: 12, rejects: 0, code, bakedOn: bakeDay, bestBefore: null, useBy: null };
      batches.push((await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id);
    }
    const lines = [{ lots: batches.slice(0, 1), quantity: { figure: '12', unit: 'piece' as const }, how: 'counted' as const }];
    await b.baker.record('sent-out', { channel: 'dispatch', customer: null, unattended: false, until: null, lines }, { at: at('06:00') });
  });
  afterAll(() => t.close());
  const ifOut = async (): Promise<IfInstrumentOut> =>
    (await b.lead.caller.get(`/sites/${b.site}/instruments/${instrument}/if-out`).expect(200)).body;

  it('is every critical reading, with the batches that may still be here', async () => {
    expect(await ifOut()).toEqual({ readings: 2, lastCheck: null, batches: [{ id: batches[1], name: 'bloomer 400 g', code: 'B-2' }] });
  });

  it('is nothing once somebody checked it', async () => {
    const shown = { instrument, way: 'ice', shown: celsius('0.1'), tolerance: null } as const;
    await b.baker.record('instrument-checked', { ...shown, at: { pressurePascal: null, altitudeMetres: null } }, { at: at('07:00') });
    expect(await ifOut()).toEqual({ readings: 0, lastCheck: `${bakeDay}T07:00:00.000Z`, batches: [] });
  });
});
