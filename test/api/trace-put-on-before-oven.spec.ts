import type { TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

let t: TestApp;
let b: Bakehouse;

beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T12:00:00Z') });
  b = await Bakehouse.found(t);
});
afterAll(() => t.close());

const products = [
  { material: 'bap', pieces: 100, grams: '80' },
  { material: 'tin', pieces: 10, grams: '900' },
] as const;

/** 17 kg of dough, divided at 08:00 into 100 baps of 80 g, and where it is of several products into 10 tins of 900 g; 800 g of egg were put on the make when said. What a trace of the egg says of each lot. */
async function washed(of: { readonly products: 1 | 2; readonly afterOven: boolean; readonly time: string }) {
  const flour = await b.delivered('flour', at('06:00'));
  const egg = await b.delivered('egg', at('06:10'));
  const make = await b.begun('white', at('07:00'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '17000', flour)] }, { at: at('07:05') });
  const runs = products.slice(0, of.products).map((p) => ({ ...p, run: b.newId() }));
  const divided = runs.map((r) => ({ run: r.run, product: b.material(r.material), heads: null, pieces: r.pieces, scaling: g(r.grams) }));
  await b.baker.record('divided', { make, quantity: null, runs: divided, oldDough: null, scrap: null }, { at: at('08:00') });
  const lines = [{ material: b.material('egg'), lot: egg, quantity: g('800'), how: 'weighed' as const }];
  await b.baker.record('added-on', { targetType: 'make', target: make, afterOven: of.afterOven, lines }, { at: at(of.time) });
  const trace: TraceView = (await b.lead.caller.get(`/lots/${egg}/trace`).expect(200)).body;
  const lots = new Map(trace.lots.map((l) => [l.id, l]));
  const said = (lot: string) => {
    const { certain, heldMinMg, heldMaxMg } = lots.get(lot) ?? {};
    return [certain, heldMinMg, heldMaxMg];
  };
  return { egg, make: said(make), runs: runs.map((r) => said(r.run)), of: runs.map((r) => r.run) };
}
type Washed = Awaited<ReturnType<typeof washed>>;
const held = ({ make, runs }: Washed) => ({ make, runs });
/** Whether the egg surely went into a product, by a trace of that back to what it came from. */
async function cameFrom({ egg, of: [run = ''] }: Washed): Promise<boolean | undefined> {
  const trace: TraceView = (await b.lead.caller.get(`/lots/${run}/trace?direction=backward`).expect(200)).body;
  return trace.lots.find((l) => l.id === egg)?.certain;
}

// By hand: 800 g are all on one of the two, or on the other, or on some of each; by what the dough weighs it would have been 376 and 424 g.
describe('something that was put on a make before the oven, once that was divided', () => {
  it.each([false, true])('is all on one of several products, or none of it; after the oven: %s', async (afterOven) => {
    const found = await washed({ products: 2, afterOven, time: '08:50' });
    expect(await cameFrom(found)).toBe(false);
    expect(held(found)).toEqual({
      make: [false, 0, 0],
      runs: [
        [false, 0, 800_000],
        [false, 0, 800_000],
      ],
    });
  });

  it.each([false, true])('is surely all on the one product; after the oven: %s', async (afterOven) => {
    const found = await washed({ products: 1, afterOven, time: '08:50' });
    expect(await cameFrom(found)).toBe(true);
    expect(held(found)).toEqual({ make: [false, 0, 0], runs: [[true, 800_000, 800_000]] });
  });

  it('is perhaps in the dough where it was put on at the instant that this was divided', async () => {
    const { make, runs } = await washed({ products: 2, afterOven: false, time: '08:00' });
    expect([make[0], ...runs.map(([certain]) => certain)]).toEqual([false, false, false]);
  });
});

// By hand: 8 of 17.8 kg and 9 of 17.8 kg, of which 800 g are egg.
describe('something that was put on a make before that was divided', () => {
  it('stays in the dough, and is in each product by what it weighs', async () => {
    const { make, runs } = await washed({ products: 2, afterOven: false, time: '07:50' });
    expect(make).toEqual([true, 800_000, 800_000]);
    expect(runs.map(([certain]) => certain)).toEqual([true, true]);
    expect(runs.flatMap(([, ...held]) => held).map((mg) => Math.round(Number(mg) / 1000))).toEqual([360, 360, 404, 404]);
  });
});
