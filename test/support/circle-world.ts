import type { TraceFlow, TraceGraph } from '@bakehouse/graph';
import { flowOf, lotOf } from './doubtful-graph.js';
import type { Content } from './possible-world.js';

/** One thing that truly happened: so much of one lot went into another. Its record may say less. */
interface Move {
  readonly source: string;
  readonly target: string;
  readonly mg: number;
}
/** Records of which some form circles, and what truly happened, in one order in which it can have happened. */
export interface Circular {
  readonly graph: TraceGraph;
  readonly moves: readonly Move[];
}

const outside = ['S', 'flour', 'milk'] as const;
const tubs = ['a', 'b', 'c', 'd'] as const;

/** Tubs that are filled and emptied into one another, and doughs from them: moves are made up one after the other, and then recorded with doubts. */
export function circularRecords(random: () => number): Circular {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] ?? fail();
  const some = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const there = new Map<string, number>();
  const into = (tub: string, mg: number): unknown => there.set(tub, (there.get(tub) ?? 0) + mg);
  const moves: Move[] = [];
  const count = some(4, 14);
  for (let n = 0; n < count; n += 1) {
    const full = tubs.filter((t) => (there.get(t) ?? 0) >= 1);
    if (full.length === 0 || random() < 0.35) {
      const [source, target, mg] = [pick(outside), pick(tubs), some(1, 500)];
      moves.push({ source, target, mg });
      into(target, mg);
      continue;
    }
    const [source, target] = [pick(full), random() < 0.2 ? `dough${n}` : pick(tubs)];
    const mg = some(1, there.get(source) ?? 1);
    moves.push({ source, target, mg });
    into(source, -mg);
    into(target, mg);
    if (target.startsWith('dough')) moves.push({ source: 'flour', target, mg: some(1, 300) });
  }
  const flows = moves.flatMap(({ source, target, mg }, i): TraceFlow[] => {
    const [id, weight] = [`f${i}`, random() < 0.1 ? null : mg];
    const other = random() < 0.15 ? pick([...outside, ...tubs]) : source;
    if (other === source) return [flowOf(id, source, target, weight, { certain: random() < 0.9 })];
    return [source, other].map((s) => flowOf(`${id} ${s}`, s, target, weight, { certain: false, anyOf: id }));
  });
  const lots = [...new Set(moves.flatMap((m) => [m.source, m.target]))];
  return { graph: { flows, lots: new Map(lots.map((id) => [id, lotOf(id)])) }, moves };
}

/**
 * What came into each lot, if the moves happened in an order drawn by chance in which each took what was there by then: a tub is stirred, so that what
 * is taken from it holds as much of the suspect as the rest. A lot that is on no circle is made once: nothing is taken before all of it is in. Null
 * where the order that was drawn comes to nothing.
 */
export function cameIn({ graph, moves }: Circular, random: () => number): ReadonlyMap<string, Content> | null {
  const [now, all] = [new Map<string, Content>(), new Map<string, Content>()];
  const left = [...moves];
  const isReady = ({ source, mg }: Move): boolean =>
    isOutside(source) ||
    ((now.get(source)?.mass ?? 0) >= mg - 1e-9 && (!left.some((m) => m.target === source) || goesInto(graph, source).has(source)));
  while (left.length > 0) {
    const ready = left.filter(isReady);
    const move = ready[Math.floor(random() * ready.length)];
    if (move === undefined) return null;
    left.splice(left.indexOf(move), 1);
    const { source, target, mg } = move;
    const { mass, suspect } = now.get(source) ?? { mass: 0, suspect: 0 };
    const share = isOutside(source) ? Number(source === 'S') : suspect / mass;
    if (!isOutside(source)) add(now, source, -mg, -mg * share);
    add(now, target, mg, mg * share);
    add(all, target, mg, mg * share);
  }
  return all;
}

const isOutside = (lot: string): boolean => outside.some((o) => o === lot);

function add(to: Map<string, Content>, lot: string, mass: number, suspect: number): void {
  const before = to.get(lot) ?? { mass: 0, suspect: 0 };
  to.set(lot, { mass: before.mass + mass, suspect: before.suspect + suspect });
}

function goesInto({ flows }: TraceGraph, from: string): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [from];
  for (const lot of open) {
    for (const { target } of flows.filter((f) => f.source === lot && !found.has(f.target))) {
      found.add(target);
      open.push(target);
    }
  }
  return found;
}

function fail(): never {
  throw new Error('nothing to pick from');
}
