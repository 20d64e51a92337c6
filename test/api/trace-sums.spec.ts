import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';

/** What the database's rows make of shares, losses and what went as one of several lots. */
describe('the sums of a trace', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batches: string[];
  let short: string[];
  let crumb: string;
  let trace: TraceView;
  let oiled: string;
  let summed: string;
  let reworked: string;

  /** So many pieces at so many grams from a dough of these flours alone, as much of each, counted out as one batch. */
  const baked = async (
    product: 'tin' | 'bap',
    flours: readonly string[],
    count: number,
    scaling: string,
    code: string,
  ): Promise<string> => {
    const make = await b.begun('white', at('01:00'));
    await b.baker.record(
      'weighed-in',
      { make, lines: flours.map((f) => b.into('flour', String((count * Number(scaling)) / flours.length), f)) },
      { at: at('01:05') },
    );
    const run = b.newId();
    const runs = [{ run, product: b.material(product), heads: null, pieces: count, scaling: g(scaling) }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: count, rejects: 0, code, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    return (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
  };

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T08:00:00Z') });
    b = await Bakehouse.found(t);
    const [suspect, other] = [await b.delivered('flour', at('00:10')), await b.delivered('flour', at('00:10'))];
    const tins = await baked('tin', [other], 4, '910', 'TIN');
    batches = [await baked('bap', [suspect], 10, '75', 'BAP-1'), await baked('bap', [suspect], 6, '75', 'BAP-2')];
    crumb = await b.begun('treacle', at('03:00'));
    const whole = (product: 'tin' | 'bap', lot: string) => ({ ...b.into(product, '1', lot, 'counted'), quantity: pieces(1) });
    await b.baker.record('weighed-in', { make: crumb, lines: [whole('tin', tins), whole('bap', batches[0] ?? '')] }, { at: at('03:05') });
    await b.baker.record('make-ended', { make: crumb, quantity: g('900'), how: 'weighed' }, { at: at('04:00') });
    const round = [{ lots: batches, quantity: pieces(6), how: 'counted' as const }];
    await b.baker.record(
      'sent-out',
      { channel: 'dispatch', customer: b.party('cafeA'), unattended: false, until: null, lines: round },
      { at: at('05:00') },
    );
    // 30 of two lots of 20: one of the suspect's flour, one of the other.
    short = [await baked('bap', [suspect], 20, '75', 'BAP-4'), await baked('bap', [other], 20, '75', 'BAP-5')];
    const either = [{ lots: short, quantity: pieces(30), how: 'counted' as const }];
    await b.baker.record(
      'sent-out',
      { channel: 'dispatch', customer: b.party('cafeB'), unattended: false, until: null, lines: either },
      { at: at('05:10') },
    );
    for (const [i, left] of [5, 4].entries())
      await b.baker.record('lot-counted', { lot: batches[i] ?? '', place: null, quantity: pieces(left) }, { at: at('06:00') });
    // 500 g of the suspect's flour with oil that nobody weighed, 625 g of it in the end; and 45 g of baked baps with 955 g of other flour.
    oiled = await b.begun('white', at('07:00'));
    const lines = [b.into('flour', '500', suspect), { ...b.into('flour', '1', other), quantity: null }];
    await b.baker.record('weighed-in', { make: oiled, lines }, { at: at('07:05') });
    const runs = [{ run: b.newId(), product: b.material('bap'), heads: null, pieces: 8, scaling: g('75') }];
    await b.baker.record('divided', { make: oiled, quantity: g('625'), runs, oldDough: null, scrap: null }, { at: at('07:10') });
    summed = await b.begun('white', at('07:12'));
    await b.baker.record('weighed-in', { make: summed, lines: lines.slice(0, 1) }, { at: at('07:13') });
    const more = [{ run: b.newId(), product: b.material('bap'), heads: null, pieces: 6, scaling: g('75') }];
    await b.baker.record('divided', { make: summed, quantity: null, runs: more, oldDough: null, scrap: null }, { at: at('07:15') });
    await b.baker.record('weighed-in', { make: summed, lines: lines.slice(1) }, { at: at('07:14') });
    const mixed = await baked('bap', [suspect, other], 10, '75', 'BAP-3');
    reworked = await b.begun('white', at('07:20'));
    const rework = [b.into('bap', '45', mixed), b.into('flour', '955', other)];
    await b.baker.record('weighed-in', { make: reworked, lines: rework }, { at: at('07:25') });
    trace = (await b.lead.caller.get(`/lots/${suspect}/trace`).expect(200)).body;
  });
  afterAll(() => t.close());

  it('weighs pieces by their scaling weight and takes the share of what came out: of 985 g, a 75 g bap among them, 900 g', () => {
    const made = trace.lots.find((l) => l.id === crumb);
    // 85 g were lost and nobody knows of what: none of the bap is left for sure, and at most all of it.
    expect([made?.minPpt, made?.maxPpt]).toEqual([0, Math.ceil((75 / 900) * 1e12)]);
    expect([made?.heldMinMg, made?.heldMaxMg]).toEqual([0, 75_000]);
  });

  const shareOf = (lot: string) => {
    const { minPpt, maxPpt } = trace.lots.find((l) => l.id === lot) ?? {};
    return [minPpt, maxPpt];
  };
  it('gives a line that nobody weighed what is missing to the weight of the dough: 500 of 625 g', () => {
    expect(shareOf(oiled)).toEqual([0.8e12, 0.8e12]);
  });

  it('takes no sum of the lines for a weight of the dough: what was added without a weight may be all that there was of it', () => {
    const [least, most] = shareOf(summed);
    expect(most).toBe(1e12);
    expect(least).toBeLessThan(0.5e12);
  });

  it('says of baked pieces weighed in as rework what their dough held at least, and what may be left of them at most', () => {
    // Of 10 baps scaled at 75 g half is the suspect's flour: 45 g hold 22.5 g at least, and 45 g at most, had all that is not the suspect's dried away.
    expect(shareOf(reworked)).toEqual([0.0225e12, 0.045e12]);
  });

  it('takes what was lost in drying neither for stock nor for missing', async () => {
    const own: TraceView = (await b.lead.caller.get(`/lots/${crumb}/trace`).expect(200)).body;
    expect(own.suspectBalances[0]?.balance).toMatchObject({ received: 985_000, lost: 85_000, onHand: { amount: 900_000, by: 'records' } });
  });

  it('contacts a customer who has one of two lots once: 6 pieces, and surely, as both are in scope', () => {
    // In the order of their ids, which chance gives.
    const names = (batches[0] ?? '') < (batches[1] ?? '') ? 'BAP-1 or BAP-2' : 'BAP-2 or BAP-1';
    const cafe = trace.contacts.filter((c) => c.name === 'Café at the lock');
    expect(cafe.map((c) => [c.pieces, c.certain, c.lines.map((l) => l.code)])).toEqual([[6, true, [names]]]);
    expect(trace.ends.filter((e) => e.pieces === 6).map((e) => [e.lots, e.certain])).toEqual([[[...batches].sort(), true]]);
  });

  it('is sure that a customer has the suspect where the other lot had too little: of 30 of one of two lots of 20, 10 at least', () => {
    expect(trace.ends.filter((e) => e.lots.includes(short[0] ?? '')).map((e) => [e.pieces, e.certain])).toEqual([[30, true]]);
    expect(trace.onHand.find((l) => l.lot === short[0])?.amount).toBe(10);
  });

  it('balances the two lots in one line: 16 made, 1 used, 6 gone, 9 counted', () => {
    expect(trace.doesNotAddUp.filter((d) => d.lots.some((lot) => batches.includes(lot)))).toEqual([]);
  });
});
