import type { TraceFlow, TraceGraph, TraceLot } from '@bakehouse/graph';

export const before = '2026-11-23T04:00:00.000Z';
export const weighed = '2026-11-23T05:00:00.000Z';
export const after = '2026-11-23T06:00:00.000Z';

export function lotOf(id: string, more: Partial<TraceLot> = {}): TraceLot {
  const none = { code: null, mg: null, pieces: null, pieceMg: null, outMg: null, outAt: null, lostMg: null, evaporatedMg: null };
  return { id, name: id, type: 'made', book: 'site', material: id, at: before, ...none, ...more };
}
export function flowOf(id: string, source: string, target: string, mg: number | null, more: Partial<TraceFlow> = {}): TraceFlow {
  return { id, source, target, mg, pieces: null, how: 'weighed', type: 'ingredient', certain: true, anyOf: null, at: before, ...more };
}

const sources = ['S', 'flour', 'oil', 'egg'] as const;

/**
 * A small bakehouse with every doubt that records can have: lines that nobody weighed, one of several lots, what may not have happened, pieces with and
 * without a weight, losses of which nobody knows what they took, more out than in, overdrawn lots. Lots `m0`, `m1`… are made in this order.
 */
export function doubtfulGraph(random: () => number): TraceGraph {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] ?? fail();
  const some = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const lots = new Map<string, TraceLot>();
  for (const id of sources)
    lots.set(id, lotOf(id, { mg: random() < 0.5 ? some(500, 4000) : null, pieceMg: random() < 0.5 ? some(20, 90) : null }));
  const flows: TraceFlow[] = [];
  const made = some(2, 4);
  for (let n = 0; n < made; n += 1) {
    const target = `m${n}`;
    const from = [...lots.keys()];
    const own = Array.from({ length: some(1, 4) }, (_, i): TraceFlow[] => {
      const of = { at: random() < 0.2 ? after : before };
      const mg = random() < 0.25 ? null : some(1, 900);
      const id = `${target}.${i}`;
      const kind = random();
      if (kind < 0.6) return [flowOf(id, pick(from), target, mg, of)];
      if (kind < 0.7) return [flowOf(id, pick(from), target, null, { ...of, pieces: some(1, 9) })];
      if (kind < 0.8) return [flowOf(id, pick(from), target, mg, { ...of, certain: false })];
      const members = [...new Set([pick(from), pick(from), pick(from)])];
      return members.map((m) => flowOf(`${id} ${m}`, m, target, mg, { ...of, certain: false, anyOf: id }));
    }).flat();
    flows.push(...own);
    const known = own.every((f) => f.mg !== null && f.certain) ? own.reduce((sum, f) => sum + (f.mg ?? 0), 0) : null;
    const out = random() < 0.4 ? { outMg: some(50, 2500), outAt: weighed, evaporatedMg: random() < 0.5 ? some(0, 400) : null } : {};
    lots.set(target, lotOf(target, { mg: known, ...out, pieceMg: random() < 0.3 ? some(20, 90) : null }));
  }
  return { flows, lots };
}

function fail(): never {
  throw new Error('nothing to pick from');
}
