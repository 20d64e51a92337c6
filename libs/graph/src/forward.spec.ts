import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { traceForward } from './forward.js';
import type { TraceFlow, TraceGraph } from './graph.js';
import { whole } from './share.js';

const flow = (source: string, target: string, grams: number | null, more: Partial<TraceFlow> = {}): TraceFlow => ({
  id: `${source}>${target}`,
  source,
  target,
  mg: grams === null ? null : Math.round(grams * 1000),
  pieces: null,
  how: 'weighed',
  type: 'ingredient',
  certain: true,
  anyOf: null,
  at: '2026-11-23T04:00:00.000Z',
  ...more,
});
const graph = (flows: TraceFlow[]): TraceGraph => ({ flows, lots: new Map() });
const grams = (mg: number | null | undefined): number => Math.round((mg ?? 0) / 100) / 10;

describe('what holds a suspect lot', () => {
  it('follows a starter from day to day: 913.9, 147.6 and 23.8 g of it in the doughs of three days', () => {
    // The arithmetic follows from the tub's weights: 1,090 of 2,600 g, then 420 of 2,600 g kept (calculated by hand).
    const tub = (day: number): TraceFlow[] => [
      flow(`kept${day - 1}`, `tub${day}`, 420),
      flow(day === 1 ? 'L8' : `rye${day}`, `tub${day}`, 1090),
      flow(`water${day}`, `tub${day}`, 1090),
      flow(`tub${day}`, `dough${day}`, 2180),
      flow(`tub${day}`, `kept${day}`, 420),
    ];
    const reached = traceForward(graph([1, 2, 3].flatMap(tub)), ['L8']);
    const held = [1, 2, 3].map((d) => reached.get(`dough${d}`));
    expect(held.map((h) => grams(h?.minMg))).toEqual([913.9, 147.6, 23.8]);
    expect(held.map((h) => grams(h?.maxMg))).toEqual([913.9, 147.6, 23.8]);
  });

  it('says nothing to half where one of two lots went in, nobody knows which', () => {
    const either = { certain: false, anyOf: 'g' };
    const reached = traceForward(
      graph([flow('S', 'dough', 500, either), flow('other', 'dough', 500, either), flow('water', 'dough', 500)]),
      ['S'],
    );
    expect(reached.get('dough')).toMatchObject({ min: 0n, max: whole / 2n });
  });

  it('is all of it where whichever of the group it was held it', () => {
    const either = { certain: false, anyOf: 'g' };
    const reached = traceForward(
      graph([flow('S', 'a', 10), flow('S', 'b', 10), flow('a', 'round', 5, either), flow('b', 'round', 5, either)]),
      ['S'],
    );
    expect(reached.get('round')).toMatchObject({ min: whole, max: whole });
  });

  it('reaches everything on a circle and after it, with bounds: 1 of 2 g at least', () => {
    const flows = [flow('S', 'a', 1), flow('x', 'a', 1), flow('a', 'b', 1), flow('b', 'a', 1), flow('b', 'c', 1)];
    const reached = traceForward(graph(flows), ['S']);
    expect([...reached.keys()].sort()).toEqual(['S', 'a', 'b', 'c']);
    expect(reached.get('a')).toMatchObject({ min: whole / 3n, max: (2n * whole) / 3n + 1n });
    expect(reached.get('c')).toMatchObject({ min: null, max: null });
  });

  it('reaches by a shared bowl, with no bound: a contact has no mass', () => {
    const reached = traceForward(
      graph([flow('S', 'a', 1), flow('a', 'next', null, { type: 'contact', certain: false }), flow('x', 'next', 5)]),
      ['S'],
    );
    expect(reached.get('next')).toMatchObject({ min: null, max: null, steps: 2 });
  });

  it('halves 2,000 times without losing the lot from the scope', () => {
    const flows = Array.from({ length: 2000 }, (_, i) => [flow(`l${i}`, `l${i + 1}`, 1), flow(`w${i}`, `l${i + 1}`, 1)]).flat();
    const last = traceForward(graph(flows), ['l0']).get('l2000');
    expect(last).toMatchObject({ min: 0n, max: 1n });
  });

  const dag = fc
    .array(fc.record({ a: fc.nat(12), b: fc.nat(12), g: fc.integer({ min: 1, max: 5000 }) }), { maxLength: 40 })
    .map((edges) => edges.filter((e) => e.a < e.b).map((e, i) => flow(`n${e.a}`, `n${e.b}`, e.g, { id: `e${i}` })));

  it('bounds hold for any flows: 0 ≤ min ≤ max ≤ whole, at most one part apart a lot where all is certain and weighed', () => {
    fc.assert(
      fc.property(dag, (flows) => {
        for (const r of traceForward(graph(flows), ['n0']).values()) {
          if (r.min === null || r.max === null) throw new Error('a share is missing without a circle');
          expect(r.min >= 0n && r.min <= r.max && r.max <= whole).toBe(true);
          expect(r.max - r.min <= 200n).toBe(true);
        }
      }),
    );
  });

  it('never shrinks when a link is added', () => {
    fc.assert(
      fc.property(dag, fc.nat(12), fc.nat(12), (flows, a, b) => {
        const before = traceForward(graph(flows), ['n0']);
        const after = traceForward(
          graph([...flows, flow(`n${Math.min(a, b)}`, `n${Math.max(a, b) + 1}`, 10, { id: 'added', certain: false })]),
          ['n0'],
        );
        for (const lot of before.keys()) expect(after.has(lot)).toBe(true);
      }),
    );
  });
});
