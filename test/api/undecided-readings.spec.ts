import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { openThings, type InspectionView } from '@bakehouse/contracts';
import { batchView, lookupOf, nightView } from '@bakehouse/views';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';

const day = '2026-11-25';

/** A thermometer that failed after its readings let food go, a core that is too close to call, and goods that were refused and used. */
describe('readings that cannot be trusted', () => {
  const clock = new SettableClock(`${day}T06:00:00Z`);
  let t: TestApp;
  let b: Bakehouse;
  let probe: string;
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    probe = await b.probeInUse();
  });
  afterAll(() => t.close());

  const bake = async (core: string, code: string) => {
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600')] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const into = {
      oven: b.place('deckOven'),
      deck: null,
      plan: b.plan,
      bakeDay: day,
      setting: null,
      minutes: 28,
      lines: [{ run, pieces: 12 }],
    };
    const load = (await b.baker.record('load-in', into, { at: at('04:00') })).id;
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, core, { instrument: probe }), { at: at('04:40') });
    const counted = { run, loads: [load], pieces: 12, rejects: 0, code, bakedOn: day, bestBefore: null, useBy: null };
    return { make, load, batch: (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id };
  };
  const check = (shown: string, time: string) =>
    b.baker.record(
      'instrument-checked',
      { instrument: probe, way: 'ice', shown: celsius(shown), at: { pressurePascal: null, altitudeMetres: null }, tolerance: null },
      { at: at(time) },
    );
  const held = async (): Promise<string[]> =>
    (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body.held.map((h: { lot: string }) => h.lot);
  const refusedReleases = async (): Promise<unknown[]> => {
    const { setAside } = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    return setAside.filter((k) => k.kind === 'released-by-rule').map((k) => k.problem);
  };
  const tablet = async (batch: string) => {
    const rows = await b.night();
    const row = rows.batch.find((one) => one.id === batch);
    if (!row) throw new Error('the tablet has no such batch');
    const lookup = lookupOf(rows, `${day}T06:00:00.000Z`, 'Europe/London');
    return { release: batchView(lookup, row).release, night: nightView(rows, { bakeDay: day, at: lookup.at, zone: lookup.zone }) };
  };

  it('a failed check leaves in doubt what was read since the last good one: released food is found, other food kept, until somebody signs', async () => {
    const [gone, waiting] = [await bake('95', 'B-1'), await bake('95', 'B-2')];
    await check('0.1', '01:00');
    await b.baker.record('released-by-rule', { batch: gone.batch }, { at: at('05:05') });
    expect(await held()).toEqual([]);
    await check('2.6', '05:30');

    expect(await b.baker.refused('released-by-rule', { batch: waiting.batch })).toMatchObject({
      problem: 'not-releasable',
      acceptable: expect.stringContaining('to be confirmed: core temperature: P7 failed its check, 25 Nov 2026 05:30'),
    });
    expect((await held()).sort()).toEqual([gone.batch, waiting.batch].sort());
    const on = await tablet(gone.batch);
    expect(on.release).toMatchObject({ state: 'released', since: [{ code: 'weigh-again', subject: gone.load }] });
    expect((await tablet(waiting.batch)).release).toMatchObject({ state: 'on-hold', findings: [{ code: 'weigh-again' }] });
    const doubt = { why: 'failed-check', instrument: 'P7', at: `${day}T05:30:00.000Z` };
    expect(on.night.loads.find((l) => l.id === gone.load)?.readings).toMatchObject([{ verdict: 'within', doubt }]);
    expect(on.night.due.filter((d) => d.subject === waiting.load)).toMatchObject([{ again: { doubt } }]);

    const view: InspectionView = (await b.baker.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
    expect(view.loads.flatMap((l) => l.readings).map((r) => [r.verdict, r.doubt])).toEqual([
      ['within', doubt],
      ['within', doubt],
    ]);
    expect(view.counts).toMatchObject({ within: 0, doubtful: 2 });

    for (const { batch } of [gone, waiting])
      await b.lead.record('released-by-exception', { batch }, { at: at('05:50'), words: { why: 'colour and bake time are right' } });
    expect(await held()).toEqual([]);
    expect((await tablet(gone.batch)).release).toMatchObject({ state: 'released', since: [] });
  });

  it('a core too close to call keeps the batch and is asked again on the first screen, until one is clear', async () => {
    await check('0.1', '03:00');
    const { load, batch } = await bake('93.3', 'B-3');
    await check('0.1', '05:01');
    expect((await b.baker.refused('released-by-rule', { batch })).acceptable).toContain('probe again: core temperature: too close to call');
    expect(await held()).toEqual([batch]);
    expect(await refusedReleases()).toEqual(['not-releasable']);
    expect((await tablet(batch)).night.due.filter((d) => d.subject === load)).toMatchObject([
      { again: { verdict: 'unsure', doubt: null } },
    ]);
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '94.4', { instrument: probe }), { at: at('04:55') });
    await b.baker.record('released-by-rule', { batch });
    expect(await held()).toEqual([]);
    expect(await refusedReleases()).toEqual([]);
  });

  it('goods that were refused are not accepted by a baker once more, and what was made of them waits for the signed decision', async () => {
    const lot = await b.delivered('flour', at('01:00'));
    const refused = await b.baker.record('receipt-decided', { lot, decision: 'refused' }, { at: at('01:10') });
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', lot)] }, { at: at('02:35') });
    expect((await b.baker.refused('receipt-decided', { lot, decision: 'accepted' })).problem).toBe('refusal-stands');
    const again = { corrects: refused.id, words: { reason: 'a slip' }, at: at('01:10') };
    expect((await b.baker.refused('receipt-decided', { lot, decision: 'accepted' }, again)).problem).toBe('refusal-stands');
    const accepted = { lot, decision: 'accepted', covers: 'this-alone' } as const;
    const why = { words: { why: 'the pack is whole' } };
    expect((await b.baker.refused('refused-goods-accepted', accepted, why)).problem).toBe('not-permitted');
    expect((await b.lead.refused('refused-goods-accepted', accepted, why)).problem).toBe('signature-missing');
    await b.lead.record('refused-goods-accepted', accepted, why);
    expect(await held()).toEqual([make]);
  });
});
