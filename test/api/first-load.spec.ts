import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { InspectionView, OpenThings, TraceView } from '@bakehouse/contracts';
import { pointId, type PayloadFor } from '@bakehouse/records';
import { batchView, lookupOf } from '@bakehouse/views';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy, type Transaction } from '../../apps/api/src/platform/database/index.js';
import { noteClear } from '../../apps/api/src/platform/ledger/clear-lots.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';
import { firstCore } from '../support/first-core.js';
import { Hand } from '../support/hand.js';
import { pointKeys } from '../support/bakehouse-data.js';
import { looseningsOf } from '../support/loosened.js';

const why = { words: { why: 'the colour is right' } };

/** Where the core is read at the first load of the day, what was baked later that day rests on it, whenever that reading is found to be wrong. */
describe('a batch of a later load of the day', () => {
  const clock = new SettableClock('2026-11-25T06:00:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let plan: string;
  let date = 1;
  let day = '';
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    const content = {
      name: 'First loads',
      scope: 'all',
      team: 'lead',
      pastLife: { opened: 'warn', madeHere: 'warn' } as const,
      points: [firstCore],
    };
    const signs = new Hand(b.house, b.lead.caller, null);
    plan = (await signs.record('plan-approved', { series: b.newId(), number: 1, site: null, content, loosened: looseningsOf(pointKeys) }))
      .id;
  });
  afterAll(() => t.close());
  /** A day of its own for each, none of them long ago. */
  beforeEach(() => void (day = `2026-11-${(9 + date++).toString().padStart(2, '0')}`));

  const run = async () => {
    const make = await b.begun('white', at('01:30', day), { plan });
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600')] }, { at: at('01:31', day) });
    const id = b.newId();
    const runs = [{ run: id, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('02:00', day) });
    return id;
  };
  const load = async (of: string, time: string) => {
    const lines = [{ run: of, pieces: 12 }];
    const into = { oven: b.place('deckOven'), deck: null, plan, bakeDay: day, setting: null, minutes: 28, lines };
    return (await b.baker.record('load-in', into, { at: at(time, day) })).id;
  };
  const bake = async (time: string) => {
    const of = await run();
    const loaded = await load(of, time);
    const out = {
      run: of,
      loads: [loaded],
      pieces: 12,
      rejects: 0,
      code: `B-${of.slice(-8)}`,
      bakedOn: day,
      bestBefore: null,
      useBy: null,
    };
    return { load: loaded, batch: (await b.baker.record('batch-counted-out', out, { at: at('05:30', day) })).id };
  };
  const readingOf = (of: string, figure: string) =>
    b.reading('bloomer-core', 'load', of, figure, { point: pointId(plan, 'first-core'), value: celsius(figure) });
  const read = (of: string, figure: string) => b.baker.record('reading-taken', readingOf(of, figure), { at: at('05:00', day) });
  const corrected = (corrects: string, of: string, figure: string) =>
    b.baker.record('reading-taken', readingOf(of, figure), { corrects, at: at('05:00', day), words: { reason: 'misread' } });
  const release = (batch: string) => b.baker.record('released-by-rule', { batch }, { at: at('05:45', day) });
  const twoReleased = async () => {
    const [first, second] = [await bake('03:00'), await bake('04:00')];
    const reading = (await read(first.load, '96')).id;
    for (const { batch } of [first, second]) await release(batch);
    return { first, second, reading };
  };
  const open = async (): Promise<OpenThings> => (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;
  const onTablet = async (batch: string) => {
    const rows = await b.night(day);
    const row = rows.batch.find((one) => one.id === batch);
    if (!row) throw new Error('the tablet has no such batch');
    return batchView(lookupOf(rows, `${day}T06:00:00.000Z`, 'Europe/London'), row).release;
  };
  const inspected = async (batch: string) => {
    const view: InspectionView = (await b.lead.caller.get(`/sites/${b.site}/inspection?from=${day}&until=${day}`).expect(200)).body;
    return view.batches.find((one) => one.id === batch);
  };
  /** What speaks against a batch, as the list of the site, a trace, the tablet and the officer's page say: all the same. */
  const said = async (batch: string): Promise<readonly string[]> => {
    const listed = (await open()).held.find((h) => h.lot === batch)?.concerns.map((c) => c.type) ?? [];
    const trace: TraceView = (await b.lead.caller.get(`/lots/${batch}/trace`).expect(200)).body;
    expect(trace.onHand.find((one) => one.lot === batch)?.concerns.map((c) => c.type) ?? []).toEqual(listed);
    const release = await onTablet(batch);
    expect(('since' in release ? release.since : 'findings' in release ? release.findings : []).map((f) => f.code)).toEqual(listed);
    expect((await inspected(batch))?.standing === 'on-hold').toBe(listed.length > 0);
    return listed;
  };

  it('that was released is on hold once the reading of the first is corrected to too low, and no more once that is put right', async () => {
    const { first, second, reading } = await twoReleased();
    expect(await said(second.batch)).toEqual([]);
    await corrected(reading, first.load, '80');
    expect(await said(second.batch)).toEqual(['first-load-outside']);
    expect(await b.baker.refused('released-by-rule', { batch: second.batch })).toMatchObject({ problem: 'not-releasable' });
    await corrected(reading, first.load, '95');
    expect(await said(second.batch)).toEqual([]);
  });

  it('that was released is on hold once a later reading of the first is low, until its own loads are read and within', async () => {
    const { first, second } = await twoReleased();
    await b.baker.record('reading-taken', readingOf(first.load, '85'), { at: at('05:10', day) });
    expect(await said(second.batch)).toEqual(['first-load-outside']);
    await read(second.load, '97');
    expect(await said(second.batch)).toEqual([]);
  });

  it('that was released and sold is told of on the list of what was found', async () => {
    const { first, second, reading } = await twoReleased();
    const quantity = { figure: '12', unit: 'piece' } as const;
    const lines = [{ lots: [second.batch], quantity, how: 'counted' as const }];
    const sent = { channel: 'dispatch', customer: b.party('cafeA'), unattended: false, until: null, lines } as const;
    await b.baker.record('sent-out', sent, { at: at('05:50', day) });
    await corrected(reading, first.load, '80');
    expect(await onTablet(second.batch)).toMatchObject({ state: 'released', since: [{ code: 'first-load-outside', subject: first.load }] });
  });

  it('waits, on the list of what is open too, while the first is not read', async () => {
    const [first, second] = [await bake('03:00'), await bake('04:00')];
    expect(await said(second.batch)).toEqual(['first-load-not-read']);
    expect((await b.baker.refused('released-by-rule', { batch: second.batch })).acceptable).toContain(
      'the first load of the day, which is read for all, was not read: core temperature',
    );
    await read(first.load, '96');
    expect(await said(second.batch)).toEqual([]);
    await release(second.batch);
  });

  it('is judged by the true first load: one that is recorded late and unread holds it, until that is withdrawn or read', async () => {
    const [released, other] = [await bake('04:00'), await bake('04:30')];
    await read(released.load, '96');
    for (const { batch } of [released, other]) await release(batch);
    const late = await load(await run(), '03:00');
    // Its own load, which used to be the first, was read and within.
    expect(await said(released.batch)).toEqual([]);
    expect(await said(other.batch)).toEqual(['first-load-not-read']);
    await b.baker.record('entry-withdrawn', {}, { corrects: late, words: { reason: 'another day' } });
    expect(await said(other.batch)).toEqual([]);
    const again = await load(await run(), '03:10');
    expect(await said(other.batch)).toEqual(['first-load-not-read']);
    await read(again, '95');
    expect(await said(other.batch)).toEqual([]);
  });

  it('is on hold once the first load, which was read, is withdrawn and the next was not', async () => {
    const [first, second, third] = [await bake('03:00'), await bake('04:00'), await bake('04:30')];
    await read(first.load, '96');
    await release(third.batch);
    await b.baker.record('entry-withdrawn', {}, { corrects: first.load, words: { reason: 'another day' } });
    expect(await said(third.batch)).toEqual(['first-load-not-read']);
    await read(second.load, '95');
    expect(await said(third.batch)).toEqual([]);
  });

  it('is let go by exception, which the officer’s page names as what released it, and only for what was known', async () => {
    const { first, second, reading } = await twoReleased();
    expect(await inspected(second.batch)).toMatchObject({ release: { way: 'by-rule' } });
    await b.baker.record('entry-withdrawn', {}, { corrects: reading, words: { reason: 'another load' } });
    expect(await said(second.batch)).toEqual(['first-load-not-read']);
    await b.lead.record('released-by-exception', { batch: second.batch }, why);
    expect(await said(second.batch)).toEqual([]);
    expect(await inspected(second.batch)).toMatchObject({
      release: { way: 'by-exception', inSpiteOf: [{ code: 'first-load-not-read', what: 'core temperature' }] },
    });
    await read(first.load, '80');
    expect(await said(second.batch)).toEqual(['first-load-outside']);
  });

  it('is let go by a disposition of the deviation of the first load that names it', async () => {
    const { first, second, reading } = await twoReleased();
    await corrected(reading, first.load, '80');
    const deviation = (await b.night(day)).deviation.find((d) => d.subject === first.load)?.id ?? '';
    const used: PayloadFor<'disposition-decided'> = {
      deviation,
      lot: second.batch,
      disposition: 'accepted-for-use',
      covers: 'this-alone',
      concerns: [],
      quantity: null,
    };
    await b.lead.record('disposition-decided', used, { words: { note: 'cut open and tasted' } });
    expect(await said(second.batch)).toEqual([]);
    expect(await said(first.batch)).not.toEqual([]);
  });

  it('is noted as clear once it rests, and no more once the core of the first load is found to be wrong', async () => {
    const { first, second, reading } = await twoReleased();
    const inHouse = <T>(work: (client: Transaction) => Promise<T>): Promise<T> =>
      t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, work);
    const noted = () => inHouse(async (client) => (await client.query('SELECT FROM clear_lot WHERE lot = $1', [second.batch])).rowCount);
    await inHouse((client) => noteClear(client, b.house.organisation, [second.batch], new Date('2026-12-20T06:00:00Z')));
    expect(await noted()).toBe(1);
    await corrected(reading, first.load, '86');
    expect(await noted()).toBe(0);
  });
});
