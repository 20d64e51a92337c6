import type { InspectionView } from '@bakehouse/contracts';
import { lookupOf, nightView, onHandOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { newIds, pointsOf, pointKeys } from '../support/bakehouse-data.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { looseningsOf } from '../support/loosened.js';

const day = '2026-11-25';

/** Hot baps may stand on display for two hours: the plan wants the minutes read, and says of a miss that it is recorded. Nobody reads them. */
describe('a critical reading whose time is over', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(`${day}T14:00:00Z`), env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
    b = await Bakehouse.found(t);
    const [first] = pointsOf(newIds(t.clock.now()));
    if (first === undefined) throw new Error('the plan has no point');
    const display = {
      ...{ ...first, key: 'display-time', name: 'Hot baps on display', step: 'display' as const, class: 'ccp' as const, formulas: [] },
      ...{ products: [b.material('bap')], measured: 'elapsed' as const, parameter: 'minutes on display', frequency: 'each-batch' as const },
      limit: { type: 'elapsed' as const, maxMinutes: 120, fromCelsius: null, toCelsius: null },
      ...{ ifNotMonitored: 'record' as const, ifOutside: 'correct' as const },
    };
    const content = {
      name: 'Plan of the counter',
      scope: 'all',
      team: 'lead',
      pastLife: { opened: 'warn', madeHere: 'warn' } as const,
      points: [display],
    };
    const plan = (
      await new Hand(b.house, b.lead.caller, null).record(
        'plan-approved',
        { series: b.newId(), number: 1, site: b.site, content, loosened: looseningsOf(pointKeys) },
        { at: at('00:01') },
      )
    ).id;
    const make = await b.begun('white', at('01:00'), { plan });
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '6000', await b.delivered('flour', at('00:10')))] },
      { at: at('01:05') },
    );
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 40 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 40, rejects: 0, code: 'BAP-1', bakedOn: day, bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    await b.lead.record('released-by-exception', { batch }, { at: at('02:10'), words: { why: 'baked through' } });
  });
  afterAll(() => t.close());

  const due = async (time: string) => {
    const view = nightView(await b.night(), { bakeDay: day, at: new Date(at(time)).toISOString(), zone: 'Europe/London' });
    return view.due.filter((d) => d.subject === batch).map((d) => [d.key, d.from]);
  };
  const lateOnTablet = async () =>
    onHandOf(lookupOf(await b.night(), `${day}T14:00:00.000Z`, 'Europe/London', b.site)).flatMap((p) => p.lots.map((l) => [l.id, l.late]));
  const page = async (): Promise<InspectionView> =>
    (await b.lead.caller.get(`/sites/${b.site}/inspection?from=${day}&until=${day}`).expect(200)).body;

  it('is not asked for before the food stands on the counter', async () => {
    expect(await due('05:00')).toEqual([]);
    expect((await page()).counts.notTaken).toBe(0);
    expect(await lateOnTablet()).toEqual([[batch, []]]);
  });

  it('is due two hours after it was put there', async () => {
    await b.baker.record('put-on-counter', { lot: batch, way: 'on', pieces: 40 }, { at: at('06:00') });
    expect(await due('06:30')).toEqual([['display-time', `${day}T08:00:00.000Z`]]);
  });

  it('counts as not taken once its time is over: on the page, on the pack, and where it would be sent out; what the plan lets go stays released', async () => {
    const view = await page();
    expect(view.counts.notTaken).toBe(1);
    expect(view.checks.notTaken).toMatchObject([{ point: 'Hot baps on display', answer: 'late', at: `${day}T08:00:00.000Z` }]);
    expect(view.batches.map((x) => x.standing)).toEqual(['released']);
    const { bytes } = await fileFrom(b.lead.caller, `/sites/${b.site}/inspection/pack.pdf?from=${day}&until=${day}`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toContain('Not taken in time (late)');
    expect(await lateOnTablet()).toEqual([[batch, ['minutes on display']]]);
  });

  it('is no longer late where it was read in time and only told late', async () => {
    await b.baker.record(
      'reading-taken',
      {
        ...b.reading('dough', 'batch', batch, '90'),
        ...{ point: (await b.night()).controlPoint.find((p) => p.content.key === 'display-time')?.id ?? '', measured: 'elapsed' as const },
        ...{ parameter: 'minutes on display', value: { figure: '90', unit: 'min' as const }, seconds: null },
      },
      { at: at('07:30') },
    );
    expect((await page()).counts.notTaken).toBe(0);
    expect(await lateOnTablet()).toEqual([[batch, []]]);
  });
});
