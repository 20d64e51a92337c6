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

interface Said {
  readonly trace: TraceView;
  readonly runs: readonly string[];
  readonly certain: (customer: string) => boolean | undefined;
  readonly held: (lot: string | undefined) => readonly (number | null | undefined)[];
}

/** Dough divided into as many products as said, of 20 pieces each at 01:10; five of the first went at 02:30, 60 g of glaze were put on at 03:00 or when said, five more went at 04:00. */
async function glazed(of: {
  readonly products: number;
  readonly onto: 'make' | 'run';
  readonly when?:
    { readonly at: string; readonly precision: 'about' } | { readonly at: string; readonly precision: 'between'; readonly until: string };
}): Promise<Said> {
  const flour = await b.delivered('flour', at('00:10'));
  const glaze = await b.delivered('flour', at('00:20'));
  const make = await b.begun('white', at('01:00'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '3500', flour)] }, { at: at('01:05') });
  const runs = Array.from({ length: of.products }, () => b.newId());
  const divided = runs.map((run) => ({ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }));
  await b.baker.record('divided', { make, quantity: null, runs: divided, oldDough: null, scrap: null }, { at: at('01:10') });
  const [first = ''] = runs;
  const send = (customer: string, time: string) => {
    const lines = [{ lots: [first], quantity: { figure: '5', unit: 'piece' as const }, how: 'counted' as const }];
    return b.baker.record('sent-out', { channel: 'dispatch', customer, unattended: false, until: null, lines }, { at: at(time) });
  };
  await send(b.ids.parties.school, '02:30');
  const line = { material: b.material('flour'), lot: glaze, quantity: g('60'), how: 'weighed' as const };
  const target = of.onto === 'make' ? make : first;
  await b.baker.record('added-on', { targetType: of.onto, target, afterOven: true, lines: [line] }, of.when ?? { at: at('03:00') });
  await send(b.ids.parties.cafeA, '04:00');
  const trace: TraceView = (await b.lead.caller.get(`/lots/${glaze}/trace`).expect(200)).body;
  const lots = new Map(trace.lots.map((l) => [l.id, l]));
  return {
    trace,
    runs,
    certain: (customer) => trace.ends.find((e) => e.customer === customer)?.certain,
    held: (lot) => [lots.get(lot ?? '')?.heldMinMg, lots.get(lot ?? '')?.heldMaxMg],
  };
}

describe('something that was put on a make after the oven', () => {
  it('is on the pieces that were there, and not surely on those that had left', async () => {
    const { certain, held, runs } = await glazed({ products: 1, onto: 'make' });
    expect([certain(b.ids.parties.school), certain(b.ids.parties.cafeA)]).toEqual([false, true]);
    expect(held(runs[0])).toEqual([60_000, 60_000]);
  });

  it('is perhaps all on one of several products, or none of it', async () => {
    const { certain, held, runs } = await glazed({ products: 2, onto: 'make' });
    expect([certain(b.ids.parties.school), certain(b.ids.parties.cafeA)]).toEqual([false, false]);
    expect(runs.map(held)).toEqual([
      [0, 60_000],
      [0, 60_000],
    ]);
  });
});

describe('something that was put on at a time that nobody knows exactly', () => {
  it.each([
    ['about half an hour before some left', 'run', { at: at('03:30'), precision: 'about' }, [false, false]],
    ['about long before some left', 'run', { at: at('02:45'), precision: 'about' }, [false, true]],
    ['between, and some left in between', 'run', { at: at('02:00'), precision: 'between', until: at('04:30') }, [false, false]],
    ['between, and some left after both', 'make', { at: at('02:00'), precision: 'between', until: at('03:30') }, [false, true]],
  ] as const)('is perhaps on what left within the doubt: %s', async (_, onto, when, expected) => {
    const { certain, held, runs } = await glazed({ products: 1, onto, when });
    expect([certain(b.ids.parties.school), certain(b.ids.parties.cafeA)]).toEqual(expected);
    expect(held(runs[0])).toEqual([60_000, 60_000]);
  });
});
