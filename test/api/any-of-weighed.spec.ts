import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

let t: TestApp;
let b: Bakehouse;
let [sack, other, third, make, batch] = ['', '', '', '', ''];
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T08:00:00Z') });
  b = await Bakehouse.found(t);
  [sack, other, third] = [
    await b.delivered('flour', at('00:10')),
    await b.delivered('flour', at('00:10')),
    await b.delivered('flour', at('00:10')),
  ];
  make = await b.begun('white', at('01:00'));
  await b.baker.record('weighed-in', { make, lines: [{ ...b.into('flour', '5600', sack), orLots: [other] }] }, { at: at('01:05') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bap'), heads: null, pieces: 100, scaling: g('75') }];
  await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
  const counted = { run, loads: [], pieces: 100, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
  batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
});
afterAll(() => t.close());

const forward = async (lot: string): Promise<TraceView> => (await b.lead.caller.get(`/lots/${lot}/trace`).expect(200)).body;

describe('a make that any of several lots was weighed into', () => {
  it.each([
    ['one of them', () => sack],
    ['the other', () => other],
  ])('is reached by %s, possibly and never for certain', async (_which, lot) => {
    const { lots } = await forward(lot());
    for (const reached of [make, batch]) expect(lots.find((l) => l.id === reached)).toMatchObject({ certain: false });
  });

  it('is not reached by a lot that was not named', async () => {
    expect((await forward(third)).lots.map((l) => l.id)).toEqual([third]);
  });

  it('is on every list of sums that cannot be: 7.5 kg came of 5.6 kg, though two rows say 5.6 kg each', async () => {
    const { body } = await b.lead.caller.get(`/sites/${b.site}/inspection`).expect(200);
    expect(body.batches).toMatchObject([{ id: batch, standing: 'on-hold' }]);
    expect(body.checks.onHold.map((h: { lot: string }) => h.lot)).toContain(batch);
  });

  it('is on hold where one of them is', async () => {
    await b.baker.record('hold-placed', { lot: other, deviation: null }, { at: at('06:00') });
    const night = await b.night();
    expect(night.flow.filter((f) => f.target === make).map((f) => [f.source, f.certain])).toEqual(
      expect.arrayContaining([
        [sack, false],
        [other, false],
      ]),
    );
    expect(night.deviation.filter((d) => d.subject === make).map((d) => d.type)).toEqual(['held-lot-used']);
  });
});
