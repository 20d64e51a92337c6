import { openThings, recallPaper, recallView, traceView } from '@bakehouse/contracts';
import { batchesOf, lookupOf, makesOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, sheetsOf } from '../support/read-papers.js';

const now = '2026-11-25T09:00:00.000Z';
type Word = 'certain' | 'possible';
const sheetWord = (value: unknown): Word | undefined => (value === 'certain' || value === 'possible' ? value : undefined);
const word = (certain: boolean | undefined): Word | undefined => (certain === undefined ? undefined : certain ? 'certain' : 'possible');

/** Of each of these lots the word that every screen and paper of a case says, which must be one. */
class Words {
  constructor(
    private readonly b: Bakehouse,
    private readonly suspect: string,
    private readonly recall: string,
  ) {}

  static async of(b: Bakehouse, suspect: string): Promise<Words> {
    const id = b.newId();
    const opened = { id, suspect: [suspect], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', opened).expect(200);
    return new Words(b, suspect, id);
  }

  async said(lots: readonly string[]): Promise<(Word | undefined)[][]> {
    const { caller } = this.b.lead;
    const trace = traceView.parse((await caller.get(`/lots/${this.suspect}/trace?direction=forward`).expect(200)).body);
    const view = recallView.parse((await caller.get(`/recalls/${this.recall}`).expect(200)).body);
    const paper = recallPaper.parse((await caller.get(`/recalls/${this.recall}/papers/recall.json`).expect(200)).body);
    const open = openThings.parse((await caller.get(`/sites/${this.b.site}/open`).expect(200)).body);
    const { bytes } = await fileFrom(caller, `/recalls/${this.recall}/papers/recall.xlsx`);
    const sheet = sheetsOf(bytes).find((s) => s.name === 'Lots');
    const [id = -1, sure = -1] = ['Lot id', 'Certain or possible'].map((title) => sheet?.head.indexOf(title) ?? -1);
    const lookup = lookupOf(await this.b.night(), now, 'Europe/London', this.b.site);
    const ofCase = (concerns: readonly { readonly id: string; readonly certain: boolean }[] = []): Word | undefined =>
      word(concerns.find((c) => c.id === this.recall)?.certain);
    return lots.map((lot) => [
      ...[trace, view.trace, paper.recall.trace].map((t) => word(t.lots.find((l) => l.id === lot)?.certain)),
      ofCase(view.trace.onHand.find((l) => l.lot === lot)?.concerns),
      ofCase(open.held.find((h) => h.lot === lot)?.concerns),
      word(lookup.concerns.get(lot)?.find((r) => r.concern.id === this.recall)?.certain),
      sheetWord(sheet?.rows.find((r) => r[id]?.value === lot)?.[sure]?.value),
    ]);
  }
}

/** A baker took of one of several lots, and of the others there was too little left, or was not. */
describe('the word of what holds a suspect lot', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const weigh = (make: string, grams: string, [lot = '', ...orLots]: readonly string[], time: string) =>
    b.baker.record('weighed-in', { make, lines: [{ ...b.into('flour', grams, lot), orLots }] }, { at: at(time) });
  const sacks = async (n: number): Promise<string[]> => {
    const lots: string[] = [];
    for (let i = 0; i < n; i += 1) lots.push(await b.delivered('flour', at('00:20'), { quantity: g('10000') }));
    return lots;
  };
  const baked = async (make: string, code: string): Promise<string> => {
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 6, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:00') });
    const counted = { run, loads: [], pieces: 6, rejects: 0, code, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    return (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id;
  };
  const everywhere = (of: Word): Word[] => Array.from({ length: 7 }, () => of);

  it('is certain where too little was left of the others, though a make that the case does not reach took it', async () => {
    const [suspect = '', other = ''] = await sacks(2);
    const make = await b.begun('white', at('01:00'));
    await weigh(make, '5600', [suspect, other], '01:05');
    const batch = await baked(make, 'ANY-1');
    const words = await Words.of(b, suspect);
    expect(await words.said([batch])).toEqual([everywhere('possible')]);
    await weigh(await b.begun('white', at('01:10')), '8000', [other], '01:15');
    expect(await words.said([batch])).toEqual([everywhere('certain')]);
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    expect(makesOf(lookup, '2026-11-25').map((m) => m.id)).toContain(make);
    expect(batchesOf(lookup, '2026-11-25').find((x) => x.id === batch)?.release).toMatchObject({ state: 'on-hold' });
    // What is there when it is counted did not go in before.
    const left = { lot: other, place: null, quantity: g('100') };
    await b.baker.record('lot-counted', left, { at: at('06:00') });
    expect(await words.said([batch])).toEqual([everywhere('certain')]);
  });

  it('is said of each batch by what the other sack of its own dough had left', async () => {
    const [suspect = '', other = '', third = ''] = await sacks(3);
    const [make, more] = [await b.begun('white', at('01:00')), await b.begun('white', at('01:00'))];
    await weigh(make, '5600', [suspect, other], '01:05');
    await weigh(more, '5600', [suspect, third], '01:06');
    const batches = [await baked(make, 'ANY-2'), await baked(more, 'ANY-3')];
    const words = await Words.of(b, suspect);
    await weigh(await b.begun('white', at('01:20')), '9000', [other], '01:25');
    expect(await words.said(batches)).toEqual([everywhere('certain'), everywhere('possible')]);
  });

  it('is asked back of each: neither of two that had enough is certain, one that must have been it is', async () => {
    const [one = '', other = ''] = await sacks(2);
    const make = await b.begun('white', at('01:00'));
    await weigh(make, '5600', [one, other], '01:05');
    const back = async (): Promise<(boolean | undefined)[]> => {
      const { lots } = traceView.parse((await b.lead.caller.get(`/lots/${make}/trace?direction=backward`).expect(200)).body);
      return [one, other].map((lot) => lots.find((l) => l.id === lot)?.certain);
    };
    expect(await back()).toEqual([false, false]);
    await weigh(await b.begun('white', at('01:10')), '8000', [other], '01:15');
    expect(await back()).toEqual([true, false]);
  });

  it('of a vessel that was topped up late: certain where too little of the content before was left, whichever was told first', async () => {
    const hand = new Hand(b.house, b.house.administrator);
    const tub = (await hand.record('place-in-use', { name: 'Tub', type: 'vessel', within: null }, { at: at('00:10') })).id;
    const fill = async (kept: string | null, lot: string, grams: string, time: string): Promise<string> => {
      const added = [{ material: b.material('flour'), lot, quantity: g(grams), how: 'weighed' as const }];
      const of = { vessel: tub, material: b.material('flour'), kept: kept === null ? null : g(kept), keptHow: 'weighed' as const, added };
      return (await b.baker.record('vessel-topped-up', of, { at: at(time) })).id;
    };
    const [clean = '', suspect = ''] = await sacks(2);
    const first = await fill(null, clean, '1000', '01:00');
    await weigh(await b.begun('white', at('01:30')), '400', [first], '01:30');
    const doughs = [await b.begun('white', at('02:10')), await b.begun('white', at('02:10'))];
    const [much = '', little = ''] = doughs;
    await weigh(much, '500', [first], '02:10');
    await weigh(little, '200', [first], '02:12');
    const batches = [await baked(much, 'TUB-1'), await baked(little, 'TUB-2')];
    // Of 1,000 g of the first content 400 g surely went elsewhere and 300 g were kept: 300 g at most of each.
    await fill('300', suspect, '700', '02:00');
    const words = await Words.of(b, suspect);
    expect(await words.said(batches)).toEqual([everywhere('certain'), everywhere('possible')]);
  });
});
