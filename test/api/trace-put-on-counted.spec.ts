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

interface Counted {
  readonly time: string;
  readonly pieces: number;
}
interface Sent extends Counted {
  readonly customer: 'school' | 'cafeA';
  /** Of which batch, in the order that they are named in. */
  readonly of: number;
}

/** 100 baps of 80 g, divided at 08:00 and counted out when said; so much of a glaze was put on their run, or on its make, at 09:30. */
async function glazed(of: {
  readonly onto: 'make' | 'run';
  readonly grams: string;
  readonly batches: readonly Counted[];
  readonly sent?: readonly Sent[];
}) {
  const flour = await b.delivered('flour', at('06:00'));
  const glaze = await b.delivered('egg', at('06:10'));
  const make = await b.begun('white', at('07:00'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '8000', flour)] }, { at: at('07:05') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bap'), heads: null, pieces: 100, scaling: g('80') }];
  await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('08:00') });
  const batches: string[] = [];
  for (const { pieces, time } of of.batches) {
    const out = { run, loads: [], pieces, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batches.push((await b.baker.record('batch-counted-out', out, { at: at(time) })).id);
  }
  const lines = [{ material: b.material('egg'), lot: glaze, quantity: g(of.grams), how: 'weighed' as const }];
  await b.baker.record(
    'added-on',
    { targetType: of.onto, target: of.onto === 'make' ? make : run, afterOven: true, lines },
    { at: at('09:30') },
  );
  for (const { time, pieces, customer, of: n } of of.sent ?? []) {
    const went = [{ lots: [batches[n] ?? ''], quantity: { figure: String(pieces), unit: 'piece' as const }, how: 'counted' as const }];
    const to = { channel: 'dispatch' as const, customer: b.ids.parties[customer], unattended: false, until: null };
    await b.baker.record('sent-out', { ...to, lines: went }, { at: at(time) });
  }
  const trace: TraceView = (await b.lead.caller.get(`/lots/${glaze}/trace`).expect(200)).body;
  const lots = new Map(trace.lots.map((l) => [l.id, l]));
  const said = (lot: string) => {
    const { certain, heldMinMg, heldMaxMg } = lots.get(lot) ?? {};
    return [certain, heldMinMg, heldMaxMg];
  };
  return {
    run: said(run),
    batches: batches.map(said),
    masses: batches.map((lot) => lots.get(lot)?.mg),
    sent: new Map(trace.ends.map((e) => [e.customer, e.certain])),
  };
}

describe('something that was put on a run whose pieces had all been counted out as one batch', () => {
  const batches = [{ time: '09:10', pieces: 100 }];

  it.each(['run', 'make'] as const)('is surely all on that batch, and no more than there was of it: put on the %s', async (onto) => {
    const found = await glazed({ onto, grams: '800', batches });
    expect([found.run, ...found.batches]).toEqual([
      [true, 800_000, 800_000],
      [true, 800_000, 800_000],
    ]);
    expect(found.masses).toEqual([8_800_000]);
  });

  it.each(['run', 'make'] as const)('is surely on what left the batch later, and not on what had left: put on the %s', async (onto) => {
    const sent = [
      { of: 0, time: '09:20', pieces: 40, customer: 'school' },
      { of: 0, time: '10:00', pieces: 10, customer: 'cafeA' },
    ] as const;
    const found = await glazed({ onto, grams: '800', batches, sent });
    expect(found.batches).toEqual([[true, 800_000, 800_000]]);
    expect(found.sent).toEqual(
      new Map([
        [b.ids.parties.school, false],
        [b.ids.parties.cafeA, true],
      ]),
    );
  });
});

// By hand: nobody knows on which of them it was put, and each may have all 600 g or none; 40 of them had been counted out, 60 were counted later.
describe('something that was put on a run of which some had been counted out', () => {
  const batches = [
    { time: '09:10', pieces: 40 },
    { time: '10:10', pieces: 60 },
  ];

  it('is all on what had been counted out, or all on the others, and never more than there was of it', async () => {
    const found = await glazed({ onto: 'run', grams: '600', batches });
    expect(found.batches).toEqual([
      [false, 0, 600_000],
      [false, 0, 600_000],
    ]);
  });

  // By the clock the 60 have all of it; were that wrong, they have what an even part would have been at least: 360 g.
  it('is surely on the others where all that had been counted out had left', async () => {
    const sent = [{ of: 0, time: '09:20', pieces: 40, customer: 'school' }] as const;
    const found = await glazed({ onto: 'run', grams: '600', batches, sent });
    expect(found.batches[1]).toEqual([true, 360_000, 600_000]);
    expect(found.batches[0]?.[0]).toBe(false);
    expect(Number(found.batches[0]?.[2])).toBeLessThanOrEqual(600_000);
  });
});
