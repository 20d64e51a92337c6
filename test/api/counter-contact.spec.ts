import type { CounterView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

/** What the counter says of traces is what the trace of an allergen reaches: a bowl is clean once it was cleaned after the last that was put in. */
describe('what is answered of a bowl', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [almond, flour] = ['', ''];
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T12:00:00Z') });
    b = await Bakehouse.found(t);
    [almond, flour] = [await b.delivered('almond', at('00:01')), await b.delivered('flour', at('00:01'))];
  });
  afterAll(() => t.close());

  const putIn = (make: string, material: 'almond' | 'flour', lot: string, time: string) =>
    b.baker.record('weighed-in', { make, lines: [b.into(material, '1000', lot)] }, { at: time });
  const cleaned = (time: string) =>
    b.baker.record(
      'cleaned-down',
      { place: b.place('mixer'), type: 'wet', chemical: null, dilution: null, contactSeconds: null },
      { at: time },
    );
  const begun = (formula: 'frangipane' | 'white', time: string) => b.begun(formula, time, { station: b.place('mixer') });
  /** Baps of a dough that is made in the bowl now: what is answered of almond, and whether a trace of the almond reaches them. */
  async function baps(time: string, code: string): Promise<readonly [answer: string | undefined, reached: boolean]> {
    const make = await begun('white', time);
    await putIn(make, 'flour', flour, time);
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 5, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: time });
    const counted = { run, loads: [], pieces: 5, rejects: 0, code, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    const batch = await b.baker.record('batch-counted-out', counted, { at: at('06:00') });
    const { body }: { body: CounterView } = await request(t.server).get('/api/v1/counter').expect(200);
    const trace = await b.lead.caller.get(`/lots/${almond}/trace?hazard=allergen`).expect(200);
    await b.baker.record('entry-withdrawn', {}, { corrects: batch.id, words: { reason: 'one at a time' } });
    return [
      body.products.find((p) => p.product === b.material('bap'))?.answers['almond'],
      trace.body.lots.some((l: { id: string }) => l.id === make),
    ];
  }

  it('is not clean by a cleaning between the beginning of a make and its weighing in', async () => {
    const make = await begun('frangipane', at('01:00'));
    await cleaned(at('01:05'));
    await putIn(make, 'almond', almond, at('01:10'));
    expect(await baps(at('01:20'), 'DIRTY')).toEqual(['may-contain', true]);
  });

  it('is clean after the next cleaning', async () => {
    await cleaned(at('01:30'));
    expect(await baps(at('01:40'), 'CLEAN')).toEqual(['not', false]);
  });

  it('is not clean because a day went by', async () => {
    await cleaned('2026-11-20T00:00:00Z');
    const make = await begun('frangipane', '2026-11-20T01:00:00Z');
    await putIn(make, 'almond', almond, '2026-11-20T01:10:00Z');
    expect(await baps('2026-11-22T01:00:00Z', 'LATE')).toEqual(['may-contain', true]);
  });
});
