import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';

/** 20 pieces of 75 g, all of one flour; 200 g of two lots were put on them, and 15 g of another on the 15 that were counted out. */
describe('the sums of pieces that something was put on', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  let again: string;
  const traces = new Map<string, TraceView>();

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T08:00:00Z') });
    b = await Bakehouse.found(t);
    const deliver = () => b.delivered('flour', at('00:10'));
    const lots = { flour: await deliver(), seeds: await deliver(), others: await deliver(), glaze: await deliver() };
    const make = await b.begun('white', at('01:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1500', lots.flour)] }, { at: at('01:05') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const line = (of: { lot: string; grams: string }) => ({
      material: b.material('flour'),
      lot: of.lot,
      quantity: g(of.grams),
      how: 'weighed' as const,
    });
    const put = (targetType: 'run' | 'batch', target: string, lines: { lot: string; grams: string }[]) =>
      b.baker.record('added-on', { targetType, target, afterOven: targetType === 'batch', lines: lines.map(line) }, { at: at('01:20') });
    await put('run', run, [
      { lot: lots.seeds, grams: '100' },
      { lot: lots.others, grams: '100' },
    ]);
    const out = { run, loads: [], pieces: 15, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', out, { at: at('02:00') })).id;
    await put('batch', batch, [{ lot: lots.glaze, grams: '15' }]);
    // 10 pieces of 75 g, with as much of 25 kg of oil as may be, go into a dough with 15,000 g of other flour.
    const oil = await b.delivered('flour', at('00:10'), { quantity: { figure: '25', unit: 'kg' } });
    const oiled = await b.begun('white', at('03:00'));
    await b.baker.record('weighed-in', { make: oiled, lines: [b.into('flour', '750', lots.flour)] }, { at: at('03:05') });
    const baps = b.newId();
    const ofBaps = [{ run: baps, product: b.material('bap'), heads: null, pieces: 10, scaling: g('75') }];
    await b.baker.record('divided', { make: oiled, quantity: null, runs: ofBaps, oldDough: null, scrap: null }, { at: at('03:10') });
    const unweighed = { material: b.material('flour'), lot: oil, quantity: null, how: 'estimated' as const };
    await b.baker.record('added-on', { targetType: 'run', target: baps, afterOven: false, lines: [unweighed] }, { at: at('03:20') });
    const ten = { ...out, run: baps, pieces: 10, code: 'OIL' };
    const oily = (await b.baker.record('batch-counted-out', ten, { at: at('04:00') })).id;
    again = await b.begun('white', at('05:00'));
    const back = { ...b.into('bap', '1', oily, 'counted'), quantity: pieces(10) };
    await b.baker.record('weighed-in', { make: again, lines: [back, b.into('flour', '15000', lots.others)] }, { at: at('05:05') });
    for (const [name, lot] of Object.entries(lots)) traces.set(name, (await b.lead.caller.get(`/lots/${lot}/trace`).expect(200)).body);
  });
  afterAll(() => t.close());

  const heldOf = (suspect: string) => {
    const found = traces.get(suspect)?.lots.find((l) => l.id === batch);
    return [found?.heldMinMg, found?.heldMaxMg];
  };
  it('have all of what they were scaled at, and three quarters of what was put on twenty of them, and all of what was put on them alone', () => {
    expect(heldOf('flour')).toEqual([1_125_000, 1_125_000]);
    expect(heldOf('seeds')).toEqual([75_000, 75_000]);
    expect(heldOf('glaze')).toEqual([15_000, 15_000]);
  });
  it('share out what they weigh with all of it: 1,125 of 1,290 g', () => {
    const found = traces.get('flour')?.lots.find((l) => l.id === batch);
    expect(found?.mg).toBe(1_290_000);
    expect([found?.minPpt, found?.maxPpt].map((ppt) => Math.round((ppt ?? 0) / 1e6))).toEqual([872_093, 872_093]);
  });
  it('weigh at most all that there was of what nobody weighed: 750 of 40,750 g at least, 750 of 15,750 g at most, or more by what dried', () => {
    const found = traces.get('flour')?.lots.find((l) => l.id === again);
    expect([found?.heldMinMg, found?.heldMaxMg]).toEqual([750_000, 750_000]);
    expect(Math.floor((found?.minPpt ?? 0) / 1e6)).toBe(Math.floor((750 / 40_750) * 1e6));
    expect(found?.maxPpt).toBeLessThan(0.05e12);
  });
});
