import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Deliveries, InspectionView, TraceView } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const day = '2026-11-25';

/** Readings within their limits, by a thermometer that failed its check afterwards: nothing shows them as within. */
describe('a verdict of a thermometer that failed its check', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  const doubt = { why: 'failed-check', instrument: 'P7', at: `${day}T07:30:00.000Z` };
  const words = 'to be confirmed: P7 failed its check on 25 Nov 2026 07:30';

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(`${day}T09:00:00Z`), env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
    b = await Bakehouse.found(t);
    const instrument = await b.probeInUse();
    const check = (shown: string, time: string) =>
      b.baker.record(
        'instrument-checked',
        { instrument, way: 'ice', shown: celsius(shown), at: { pressurePascal: null, altitudeMetres: null }, tolerance: null },
        { at: at(time) },
      );
    await check('0.1', '01:00');
    await b.delivered('cream', at('02:00'), {
      temperature: { ...celsius('3.2'), measured: 'between-packs', point: b.point('chilled-in'), instrument },
    });
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600')] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const [oven, lines] = [b.place('deckOven'), [{ run, pieces: 12 }]];
    const into = { oven, deck: null, plan: b.plan, bakeDay: day, setting: null, minutes: 28, lines };
    const load = (await b.baker.record('load-in', into, { at: at('04:00') })).id;
    const cored = await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '93.9', { instrument }), {
      at: at('04:40'),
    });
    const slip = { at: at('04:40'), corrects: cored.id, words: { reason: 'a slip' } };
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95', { instrument }), slip);
    const fridge = b.reading('chilled-in', 'place', b.place('fridge'), '4', { measured: 'between-packs', instrument });
    await b.baker.record('reading-taken', fridge, { at: at('05:00') });
    const counted = { run, loads: [load], pieces: 12, rejects: 0, code: 'B-1', bakedOn: day, bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id;
    await check('2.6', '07:30');
  });
  afterAll(() => t.close());
  const text = async (path: string): Promise<string> =>
    (await pagesOf((await fileFrom(b.lead.caller, path)).bytes)).map((p) => p.text).join(' ');

  it('is to be confirmed at the heat step of a trace, which says that it was corrected too', async () => {
    const trace: TraceView = (await b.lead.caller.get(`/lots/${batch}/trace?hazard=microbiological`).expect(200)).body;
    expect(trace.heat.steps).toMatchObject([{ figure: '95', verdict: 'within', doubt, corrected: true }]);
  });

  it('is to be confirmed in the list of deliveries', async () => {
    const [delivery]: Deliveries = (await b.lead.caller.get(`/sites/${b.site}/deliveries`).expect(200)).body;
    expect(delivery?.lines).toMatchObject([{ temperature: { figure: '3.2', verdict: 'within', doubt } }]);
  });

  it('is to be confirmed on the papers of a recall', async () => {
    const id = b.newId();
    const body = { id, suspect: [batch], hazard: 'microbiological', hazardName: 'Salmonella', practice: false, said: 'rang' };
    await b.lead.caller.post('/recalls', body).expect(200);
    const paper = await text(`/recalls/${id}/papers/recall.pdf`);
    const heat = paper.slice(paper.indexOf('The heat step'), paper.indexOf('The frozen scope'));
    expect(heat).toContain(words.toUpperCase());
    expect(heat).toContain('corrected');
    expect(heat).not.toMatch(/within/i);
  });

  it('is to be confirmed in the inspection pack, wherever it stands there', async () => {
    const view: InspectionView = (await b.baker.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
    expect(view.otherReadings).toMatchObject([{ figure: '4', verdict: 'within', doubt }]);
    const pack = await text(`/sites/${b.site}/inspection/pack.pdf`);
    const others = pack.slice(pack.indexOf('Other readings'));
    expect(others).toContain(words.toUpperCase());
    expect(pack.split(words.toUpperCase())).toHaveLength(4);
  });
});
