import type { InspectionView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

/** A night that begins before midnight at a site whose day does, when the clocks go back, when they go forward, and on any other. */
describe.each([
  ['2026-10-24', '2026-10-25', '24 Oct 2026', '25 Oct 2026 03:00'],
  ['2027-03-27', '2027-03-28', '27 Mar 2027', '28 Mar 2027 04:00'],
  ['2026-11-24', '2026-11-25', '24 Nov 2026', '25 Nov 2026 03:00'],
])('the night from %s to %s', (evening, morning, eveningText, counted) => {
  let t: TestApp;
  let b: Bakehouse;
  let [make, load, batch, own] = ['', '', '', ''];
  beforeAll(async () => {
    t = await startTestApp({
      clock: new SettableClock(`${morning}T14:00:00Z`),
      env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') },
    });
    b = await Bakehouse.found(t);
    make = await b.begun('white', at('22:30', evening));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600')] }, { at: at('22:35', evening) });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('22:50', evening) });
    const stage = { subjects: [{ type: 'run' as const, id: run }], place: null, step: 'prove' as const, way: 'once' as const };
    await b.baker.record('stage-passed', stage, { at: at('00:10', morning) });
    const into = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: morning, setting: null, minutes: 28 };
    load = (await b.baker.record('load-in', { ...into, lines: [{ run, pieces: 12 }] }, { at: at('00:30', morning) })).id;
    await b.baker.record('load-stepped', { load, step: 'out', minutes: null }, { at: at('01:00', morning) });
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '87'), { at: at('01:30', morning) });
    const dates = { bakedOn: morning, bestBefore: null, useBy: null };
    const out = { run, loads: [load], pieces: 12, rejects: 0, code: 'N-1', ...dates };
    batch = (await b.baker.record('batch-counted-out', out, { at: at('03:00', morning) })).id;
    own = await b.begun('white', at('06:00', morning));
  });
  afterAll(() => t.close());
  const shown = async (from: string, until = from): Promise<InspectionView> =>
    (await b.baker.caller.get(`/sites/${b.site}/inspection?from=${from}&until=${until}`).expect(200)).body;
  const ids = (list: readonly { readonly id: string }[]): string[] => list.map((one) => one.id);

  it('is whole on the day that it began on, with what was done after midnight, and that is said', async () => {
    const view = await shown(evening);
    expect([ids(view.makes), ids(view.loads), ids(view.batches)]).toEqual([[make], [load], [batch]]);
    expect(view.makes[0]?.stages).toMatchObject([{ step: 'prove' }]);
    expect(view.loads[0]).toMatchObject({
      products: [{ pieces: 12 }],
      steps: [{ step: 'out' }],
      readings: [{ figure: '87', verdict: 'outside' }],
    });
    expect(view.deviations).toMatchObject([{ subject: load, type: 'limit' }]);
    expect(view.otherReadings).toEqual([]);
    expect(view.overnight).toEqual({ goesOnUntil: `${morning}T03:00:00.000Z`, begunBefore: [] });
  });

  it('is on the next day with what was done then, beside the day on which it is whole', async () => {
    const view = await shown(morning);
    expect([ids(view.makes), ids(view.loads), ids(view.batches)]).toEqual([[own], [load], [batch]]);
    expect(view.overnight).toEqual({ goesOnUntil: null, begunBefore: [{ day: evening, makes: ['white dough'] }] });
  });

  it('is there once where both days are asked for, and nothing is cut', async () => {
    const view = await shown(evening, morning);
    expect([ids(view.makes), ids(view.loads), ids(view.batches)]).toEqual([[make, own], [load], [batch]]);
    expect(view.overnight).toEqual({ goesOnUntil: null, begunBefore: [] });
  });

  it('is printed with the same words', async () => {
    const paper = async (day: string): Promise<string> => {
      const { bytes } = await fileFrom(b.baker.caller, `/sites/${b.site}/inspection/pack.pdf?from=${day}&until=${day}`);
      return (await pagesOf(bytes)).map((p) => p.text).join(' ');
    };
    expect(await paper(evening)).toContain(`What was begun in this period is here whole, until ${counted}`);
    expect(await paper(morning)).toContain(`Begun before this period, and whole on that day: white dough on ${eveningText}`);
  });
});
