import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { BatchView } from './batches.js';
import type { LoadView } from './loads.js';
import type { MakeView, RunView } from './makes.js';
import { whereaboutsOf, type OvenPlace } from './whereabouts.js';

const at = '2026-11-25T03:00:00.000Z';
const places: OvenPlace[] = [
  { id: 'oven', name: 'Deck oven', type: 'oven', within: null },
  { id: 'top', name: 'Top deck', type: 'deck', within: 'oven' },
  { id: 'bottom', name: 'Bottom deck', type: 'deck', within: 'oven' },
  { id: 'rack', name: 'Rack oven', type: 'oven', within: null },
];
const run = (id: string, pieces: number, loaded: number): RunView => ({
  ...{
    id,
    product: 'p',
    name: 'White tin',
    pieces,
    scalingMg: 1,
    loaded,
    moreLoaded: Math.max(0, loaded - pieces),
    loads: [],
    batches: [],
  },
  ...{ added: [], stages: [], readings: [], concerns: [] },
});
const make = (id: string, state: 'begun' | 'divided' | 'ended', runs: readonly RunView[]): MakeView => ({
  ...{ id, name: 'White dough', type: 'dough', formulaVersion: 'f', stationName: null, at, doneBy: null, plannedMg: null, lines: [] },
  ...{ inMg: null, mixed: null, changes: [], stages: [], readings: [], runs, concerns: [] },
  divided: state === 'divided' ? { inMg: null, runsMg: 0, oldDoughMg: 0, scrapMg: 0, differenceMg: null } : null,
  ended: state === 'ended' ? { id: `${id} ended`, make: id, at, mg: null, how: 'estimated' } : null,
});
const load = (id: string, oven: string, deck: string | null, of: string, pieces: number, isIn: boolean): LoadView => ({
  ...{ id, name: null, oven, ovenName: oven, deck, deckName: deck, celsius: null, inAt: at, steps: [], readings: [] },
  lines: [{ run: of, product: 'p', name: 'White tin', pieces, onHold: false }],
  now: isIn ? { in: true, since: at, due: null } : { in: false, outAt: at },
});
const batch = (id: string, of: string, pieces: number, release: BatchView['release']): BatchView => ({
  ...{ id, run: of, make: 'm', product: 'p', name: 'White tin', code: id, bestBefore: null, useBy: null, pieces, rejects: 0, left: pieces },
  ...{ loads: [], at, sharesWith: [], codeOf: null, release },
});
const released: BatchView['release'] = { state: 'released', way: 'by-rule', at, since: [] };

describe('where everything of a bake is', () => {
  it('is on the table until it is made up or ended, then in the prover, an oven, on the rack, at the door', () => {
    const step = (loaded: number, loads: readonly LoadView[], batches: readonly BatchView[], state: 'begun' | 'divided' = 'divided') =>
      whereaboutsOf({ makes: [make('m', state, state === 'begun' ? [] : [run('r', 20, loaded)])], loads, batches }, places);
    const names = (w: ReturnType<typeof step>) => ({
      table: w.table.length,
      proving: w.proving.length,
      baking: w.ovens.flatMap((o) => o.mouths.flatMap((m) => m.loads)).length,
      toCount: w.toCount.length,
      waiting: w.waiting.length,
      released: w.released.length,
    });
    const nothing = { table: 0, proving: 0, baking: 0, toCount: 0, waiting: 0, released: 0 };
    expect(names(step(0, [], [], 'begun'))).toEqual({ ...nothing, table: 1 });
    expect(names(step(0, [], []))).toEqual({ ...nothing, proving: 1 });
    expect(names(step(12, [load('l', 'oven', 'top', 'r', 12, true)], []))).toEqual({ ...nothing, proving: 1, baking: 1 });
    expect(names(step(20, [load('l', 'oven', 'top', 'r', 20, true)], []))).toEqual({ ...nothing, baking: 1 });
    expect(names(step(20, [load('l', 'oven', 'top', 'r', 20, false)], []))).toEqual({ ...nothing, toCount: 1 });
    expect(names(step(20, [], [batch('b', 'r', 20, { state: 'may-go' })]))).toEqual({ ...nothing, waiting: 1 });
    expect(names(step(20, [], [batch('b', 'r', 20, released)]))).toEqual({ ...nothing, released: 1 });
  });

  it('names a product of which more went into an oven than were made up, and offers no more to count than were', () => {
    const loads = [load('a', 'oven', 'top', 'r', 20, false), load('b', 'oven', 'bottom', 'r', 14, false)];
    const of = (batches: readonly BatchView[]) =>
      whereaboutsOf({ makes: [make('m', 'divided', [run('r', 20, 34)])], loads, batches }, places);
    const where = of([]);
    expect([where.moreLoaded.map((r) => r.moreLoaded), where.toCount.length]).toEqual([[14], 1]);
    const counted = of([batch('b', 'r', 20, released)]);
    expect([counted.moreLoaded.length, counted.toCount.length]).toEqual([1, 0]);
  });

  it('never folds away a released batch that something was found about since', () => {
    const found: BatchView['release'] = {
      ...released,
      since: [{ code: 'held', subject: 'b', what: 'mites', deviation: null, concern: null, saw: null }],
    };
    const where = whereaboutsOf({ makes: [], loads: [], batches: [batch('b', 'r', 20, found)] }, places);
    expect([where.waiting.length, where.released.length]).toEqual([1, 0]);
  });

  it('shows each load that is in an oven once, in its deck where that is known, and each batch once', () => {
    const loads = fc.array(
      fc.record({
        oven: fc.constantFrom('oven', 'rack', 'one that is gone'),
        deck: fc.constantFrom('top', 'bottom', 'one that is gone', null),
        isIn: fc.boolean(),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(loads, fc.array(fc.boolean(), { maxLength: 8 }), (all, out) => {
        const views = all.map((l, i) => load(`l${i}`, l.oven, l.deck, 'r', 1, l.isIn));
        const batches = out.map((gone, i) => batch(`b${i}`, 'r', 1, gone ? released : { state: 'on-hold', findings: [] }));
        const where = whereaboutsOf({ makes: [], loads: views, batches }, places);
        const shown = where.ovens.flatMap((o) => o.mouths.flatMap((m) => m.loads.map((l) => l.id)));
        expect([...shown].sort()).toEqual(
          views
            .filter((l) => l.now.in)
            .map((l) => l.id)
            .sort(),
        );
        for (const o of where.ovens)
          for (const m of o.mouths) for (const l of m.loads) expect(m.place === null || l.deck === m.place).toBe(true);
        expect([...where.waiting, ...where.released].map((b) => b.id).sort()).toEqual(batches.map((b) => b.id).sort());
      }),
    );
  });
});
