import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

const day = '2026-11-25';

/** The lot page of a make that was divided: its food stands where it went. */
describe('a make that was divided', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [make, tins, bloomers, batch] = ['', '', '', ''];
  let oldDough: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(`${day}T14:00:00Z`) });
    b = await Bakehouse.found(t);
    make = await b.begun('white', at('02:30'));
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '30000', await b.delivered('flour', at('01:00')))] },
      { at: at('02:31') },
    );
    [tins, bloomers] = [b.newId(), b.newId()];
  });
  afterAll(() => t.close());

  const trace = async (lot: string, query = ''): Promise<TraceView> =>
    (await b.lead.caller.get(`/lots/${lot}/trace${query}`).expect(200)).body;
  const became = async () => (await trace(make)).dividedInto;
  const part = async (lot: string) => (await became())?.parts.find((p) => p.lot === lot);

  it('stands as one before', async () => {
    const { dividedInto, onHand } = await trace(make);
    expect(dividedInto).toBeNull();
    expect(onHand.map((o) => o.lot)).toEqual([make]);
  });

  it('is nothing as one from then on, and is all of its pieces and the dough that was kept', async () => {
    const runs = [
      { run: tins, product: b.material('tin'), heads: null, pieces: 20, scaling: g('910') },
      { run: bloomers, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') },
    ];
    await b.baker.record('divided', { make, quantity: null, oldDough: g('1200'), scrap: null, runs }, { at: at('03:30') });
    const { onHand, dividedInto } = await trace(make);
    expect(onHand.map((o) => o.lot)).not.toContain(make);
    expect(dividedInto?.at).toBe(`${day}T03:30:00.000Z`);
    expect(dividedInto?.parts).toHaveLength(3);
    oldDough = dividedInto?.parts.find((p) => p.type === 'old-dough')?.lot ?? '';
    expect(await part(tins)).toMatchObject({ type: 'run', pieces: 20, left: { amount: 20, measure: 'pieces' }, standing: null });
    expect(await part(oldDough)).toMatchObject({
      type: 'old-dough',
      mg: 1_200_000,
      left: { amount: 1_200_000, measure: 'mg' },
      standing: null,
    });
  });

  it('is the batch in place of the pieces that were counted out, and says how that stands', async () => {
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: day, setting: null, minutes: 28 };
    const { id: load } = await b.baker.record('load-in', { ...oven, lines: [{ run: bloomers, pieces: 12 }] }, { at: at('04:00') });
    const counted = { run: bloomers, loads: [load], pieces: 12, rejects: 0, code: 'B-1', bakedOn: day, bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id;
    expect((await became())?.parts.map((p) => p.lot).sort()).toEqual([tins, oldDough, batch].sort());
    expect(await part(batch)).toMatchObject({ code: 'B-1', pieces: 12, left: { amount: 12, measure: 'pieces' }, standing: 'waiting' });
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95'), { at: at('05:10') });
    expect((await part(batch))?.standing).toBe('ready');
    await b.baker.record('released-by-rule', { batch }, { at: at('05:41') });
    expect((await part(batch))?.standing).toBe('released');
  });

  it('says what is left, on hold or gone, as the lists of what is on hold do', async () => {
    const wasted = { customer: null, unattended: false, until: null, channel: 'waste' as const };
    await b.baker.record('hold-placed', { lot: make, deviation: null }, { at: at('06:00'), words: { because: 'a screw is missing' } });
    expect((await became())?.parts.map((p) => p.standing)).toEqual(['on-hold', 'on-hold', 'on-hold']);
    const { held } = (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;
    const ofIt = held.map((h: { lot: string }) => h.lot).filter((l: string) => [make, tins, bloomers, batch, oldDough].includes(l));
    expect(ofIt.sort()).toEqual([tins, oldDough, batch].sort());
    const lines = [{ lots: [batch], quantity: { figure: '12', unit: 'piece' as const }, how: 'counted' as const }];
    await b.baker.record('sent-out', { ...wasted, lines }, { at: at('07:00') });
    expect(await part(batch)).toMatchObject({ left: null, standing: 'gone', pieces: 12 });
  });

  it('is said of a make alone, and not of what it was made from', async () => {
    expect((await trace(make, '?direction=backward')).dividedInto).toBeNull();
    expect((await trace(batch)).dividedInto).toBeNull();
  });
});
