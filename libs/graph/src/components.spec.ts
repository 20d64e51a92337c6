import { describe, expect, it } from '@jest/globals';
import { grouped } from '@bakehouse/kernel';
import fc from 'fast-check';
import { inOrder } from './components.js';
import type { TraceFlow } from './graph.js';

const link = (source: string, target: string): TraceFlow => ({
  id: `${source}>${target}`,
  source,
  target,
  mg: 1,
  pieces: null,
  how: 'weighed',
  type: 'ingredient',
  certain: true,
  anyOf: null,
  at: '2026-11-23T04:00:00.000Z',
});

describe('lots in order', () => {
  it('are together where each goes into the other, and after all that goes into them, whatever the links', () => {
    const links = fc.array(fc.tuple(fc.nat(9), fc.nat(9)), { maxLength: 25 });
    fc.assert(
      fc.property(links, (pairs) => {
        const flows = pairs.map(([a, b]) => link(`n${a}`, `n${b}`));
        const lots = Array.from({ length: 10 }, (_, i) => `n${i}`);
        const goesInto = (from: string): Set<string> => {
          const found = new Set<string>();
          const open = [from];
          for (const lot of open)
            for (const f of flows)
              if (f.source === lot && !found.has(f.target)) {
                found.add(f.target);
                open.push(f.target);
              }
          return found;
        };
        const order = inOrder(
          lots,
          grouped(flows, (f) => f.source),
        );
        expect(order.flatMap((c) => c.members).sort()).toEqual(lots);
        const place = new Map(order.flatMap((c, i) => c.members.map((lot) => [lot, i])));
        for (const a of lots) {
          for (const b of goesInto(a)) {
            expect(place.get(a) === place.get(b)).toBe(goesInto(b).has(a));
            expect(place.get(a) ?? 0).toBeLessThanOrEqual(place.get(b) ?? 0);
          }
          expect(order[place.get(a) ?? 0]?.circle).toBe(goesInto(a).has(a));
        }
      }),
    );
  });
  it('may be a chain of 100,000', () => {
    const flows = Array.from({ length: 100_000 }, (_, i) => link(`n${i}`, `n${i + 1}`));
    const order = inOrder(
      ['n0'],
      grouped(flows, (f) => f.source),
    );
    expect(order.map((c) => c.members[0])).toEqual(Array.from({ length: 100_001 }, (_, i) => `n${i}`));
  });
});
