import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { NewEntryOf, PayloadFor } from '@bakehouse/records';
import type { Tablet } from '@bakehouse/offline';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { DeviceAt } from '../support/device-at.js';
import { Hand } from '../support/hand.js';
import { OneTruth } from '../support/one-truth.js';
import { SaidByRoutes, saidByRows, SaidOnPaper, type Said } from '../support/what-is-said.js';

const day = '2026-11-25';
const now = `${day}T09:00:00.000Z`;

interface Baked {
  readonly make: string;
  readonly weighing: string;
  readonly run: string;
  readonly batch: string;
}

/** A case on a lot whose amount nobody wrote down: one word about each lot, wherever it is read, whatever is recorded late. */
describe('a recall of a lot of unknown amount', () => {
  let t: TestApp;
  let b: Bakehouse;
  let device: DeviceAt;
  let tablet: Tablet;
  let routes: SaidByRoutes;
  let papers: SaidOnPaper;
  let [glass, clean, content, rising, recall, tub] = ['', '', '', '', '', ''];
  const codes = new Map<string, string>();
  const lots: Record<'sold' | 'other' | 'late' | 'fromTub' | 'corrected' | 'takenBack', Baked> = {
    sold: none(),
    other: none(),
    late: none(),
    fromTub: none(),
    corrected: none(),
    takenBack: none(),
  };

  const delivered = async (code: string, quantity: PayloadFor<'delivery-received'>['lines'][number]['quantity']): Promise<string> => {
    const lot = await b.delivered('flour', at('01:00'), { code, quantity });
    codes.set(lot, code);
    return lot;
  };
  const topUp = (lot: string, grams: string): PayloadFor<'vessel-topped-up'> => ({
    vessel: tub,
    material: b.material('flour'),
    kept: null,
    keptHow: 'estimated',
    added: [{ material: b.material('flour'), lot, quantity: g(grams), how: 'weighed' }],
  });

  /** Twelve bloomers, baked and released by rule. */
  async function baked(of: string, code: string): Promise<Baked> {
    const make = await b.begun('white', at('02:30'));
    const lines = [b.into('flour', '5600', of)];
    const weighing = (await b.baker.record('weighed-in', { make, lines }, { at: at('02:31') })).id;
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const into = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: day, setting: null, minutes: 28 };
    const load = (await b.baker.record('load-in', { ...into, lines: [{ run, pieces: 12 }] }, { at: at('04:00') })).id;
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95'), { at: at('04:30') });
    const out = { run, loads: [load], pieces: 12, rejects: 0, code, bakedOn: day, bestBefore: null, useBy: null };
    const batch = (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
    await b.baker.record('released-by-rule', { batch }, { at: at('05:10') });
    codes.set(batch, code);
    return { make, weighing, run, batch };
  }

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now), env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
    b = await Bakehouse.found(t);
    const administrator = new Hand(b.house, b.house.administrator);
    tub = (await administrator.record('place-in-use', { name: 'Flour tub', type: 'vessel', within: null }, { at: at('00:10') })).id;
    glass = await delivered('GLASS-1', null);
    clean = await delivered('CLEAN-2', { figure: '250', unit: 'kg' });
    await b.baker.record('vessel-topped-up', topUp(clean, '9000'), { at: at('01:10') });
    content = (await b.baker.record('vessel-topped-up', topUp(clean, '9000'), { at: at('02:00') })).id;
    lots.sold = await baked(glass, 'BL-SOLD');
    lots.other = await baked(clean, 'BL-OTHER');
    lots.late = await baked(clean, 'BL-LATE');
    lots.fromTub = await baked(content, 'BL-TUB');
    lots.corrected = await baked(clean, 'BL-CORRECTED');
    lots.takenBack = await baked(glass, 'BL-BACK');
    rising = await b.begun('white', at('07:00'));
    await b.baker.record('weighed-in', { make: rising, lines: [b.into('flour', '5600', glass)] }, { at: at('07:01') });
    await b.baker.record('put-on-counter', { lot: lots.sold.batch, way: 'on', pieces: 4 }, { at: at('06:00') });
    const line = { lots: [lots.sold.batch], quantity: pieces(3), how: 'counted' as const };
    const trip = { channel: 'dispatch' as const, customer: b.party('cafeA'), unattended: false, until: null, lines: [line] };
    await b.baker.record('sent-out', trip, { at: at('06:10') });
    ({ device, tablet } = await DeviceAt.table(b, day));
    await tablet.refresh();
    device.network = false;
    recall = b.newId();
  });
  afterAll(() => t.close());

  /** Every lot that something speaks against and that is not surely gone, by the rules that the door decides with. */
  const truth = async (): Promise<string[]> => [...(await OneTruth.of(b, now)).held.keys()].sort();
  const among = ({ of }: Said, held: readonly string[]): string[] => held.filter((lot) => of.includes(lot));

  function rowsSay(held: readonly string[]): void {
    const rows = saidByRows(tablet.state.snapshot, now, b.site);
    expect(rows.all.onHold).toEqual(held);
    for (const list of [rows.stock, rows.toSendOut, rows.batches]) expect(list.onHold).toEqual(among(list, held));
    expect(rows.batches.of).toEqual(
      Object.values(lots)
        .map((l) => l.batch)
        .sort(),
    );
  }

  async function routesSay(held: readonly string[]): Promise<void> {
    expect(await routes.list()).toEqual(held);
    const came = await routes.deliveries();
    expect([came.of, came.onHold]).toEqual([[glass, clean].sort(), among(came, held)]);
    const officer = await routes.officer();
    expect(officer.list).toEqual(held);
    expect([officer.batches.of.length, officer.batches.onHold]).toEqual([6, among(officer.batches, held)]);
    const counter = await routes.counter();
    const anyBatch = Object.values(lots).some((l) => held.includes(l.batch));
    expect(counter).toEqual({
      lots: held.filter((lot) => lot === lots.sold.batch),
      products: anyBatch ? [b.material('bloomer')] : [],
    });
    for (const lot of [glass, clean, ...Object.values(lots).map((l) => l.batch)])
      expect([lot, await routes.lotPage(lot)]).toEqual([lot, held.includes(lot)]);
  }

  /** A case and its papers know the lots in its scope: nothing else speaks against any lot here. */
  async function caseSays(held: readonly string[]): Promise<void> {
    const of = await routes.case();
    expect(of.undecided).toEqual(held);
    expect(of.inTheHouse.onHold).toEqual(held);
    const coded = held.filter((lot) => codes.has(lot));
    const paper = await papers.recallPaper();
    expect(paper.inTheHouse.onHold).toEqual(coded);
    expect(paper.times).toBe(held.length);
    expect(paper.notice).toEqual(of.inScope.filter((lot) => codes.has(lot)));
    expect(paper.notice).toEqual(expect.arrayContaining(coded));
    expect((await papers.sheets()).onHold).toEqual(held);
    expect((await papers.forAComputer()).onHold).toEqual(held);
    const pack = await papers.pack();
    expect(pack.list).toEqual(coded);
    expect([pack.batches.of.length, pack.batches.onHold]).toEqual([6, among(pack.batches, held)]);
  }

  /** The network is back: what was typed is sent, and from here on the tablet is off line once more. */
  async function network(): Promise<void> {
    device.network = true;
    await tablet.refresh();
    expect([tablet.state.pending, tablet.state.refused]).toEqual([[], []]);
    device.network = false;
  }

  async function everywhere(expected: readonly string[]): Promise<void> {
    const held = [...expected].sort();
    expect(await truth()).toEqual(held);
    rowsSay(held);
    await routesSay(held);
    await caseSays(held);
  }

  /** The tablet says so from what was typed on it; everybody else does not know yet, and then says the same. */
  async function everywhereOnce(more: readonly string[]): Promise<void> {
    const before = await truth();
    standing.push(...more);
    rowsSay([...standing].sort());
    expect(await routes.list()).toEqual(before);
    await network();
    await everywhere(standing);
  }

  const typed = async (draft: NewEntryOf<'weighed-in'> | NewEntryOf<'vessel-topped-up'>): Promise<void> => {
    expect(await tablet.record(draft, b.baker.caller.person)).toMatchObject({ ok: true });
  };
  const standing: string[] = [];

  it('says nothing before it is opened', async () => {
    routes = new SaidByRoutes(b, recall);
    papers = new SaidOnPaper(b, recall, codes);
    expect(await truth()).toEqual([]);
    rowsSay([]);
    await routesSay([]);
  });

  it('holds what was opened on and what came of it', async () => {
    const of = { id: recall, suspect: [glass], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', of).expect(200);
    standing.push(glass, rising, lots.sold.batch, lots.takenBack.batch);
    await network();
    await everywhere(standing);
  });

  it('holds what a late use reaches, on the tablet before the service knows', async () => {
    await typed({
      kind: 'weighed-in',
      payload: { make: lots.late.make, lines: [b.into('flour', '100', glass)] },
      at: new Date(at('02:40')),
    });
    await everywhereOnce([lots.late.batch]);
  });

  it('holds what a late top-up reaches', async () => {
    await typed({ kind: 'vessel-topped-up', payload: topUp(glass, '500'), at: new Date(at('01:30')) });
    await everywhereOnce([content, lots.fromTub.batch]);
  });

  it('holds what a correction puts it into, and no more what a correction takes it out of', async () => {
    const into = (of: Baked, lot: string): NewEntryOf<'weighed-in'> => ({
      kind: 'weighed-in',
      payload: { make: of.make, lines: [b.into('flour', '5600', lot)] },
      at: new Date(at('02:31')),
      corrects: of.weighing,
      words: { reason: 'the other sack' },
    });
    await typed(into(lots.corrected, glass));
    await typed(into(lots.takenBack, clean));
    standing.splice(standing.indexOf(lots.takenBack.batch), 1);
    await everywhereOnce([lots.corrected.batch]);
  });

  it('frees a lot alone, and a dough with what came of it, and nothing else', async () => {
    const decides = new Hand(b.house, b.lead.caller, null);
    const free = (lot: string, covers: 'this-alone' | 'what-came-of-it') =>
      decides.record(
        'recall-disposition-decided',
        { recall, lot, decision: 'freed', covers, quantity: null },
        { words: { why: 'sieved' } },
      );
    await free(lots.sold.batch, 'this-alone');
    await free(lots.late.make, 'what-came-of-it');
    for (const lot of [lots.sold.batch, lots.late.batch]) standing.splice(standing.indexOf(lot), 1);
    await network();
    await everywhere(standing);
  });
});

function none(): Baked {
  return { make: '', weighing: '', run: '', batch: '' };
}
