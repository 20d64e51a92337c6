import { byEnd, intakesOf, type Intake, type TraceFlow, type TraceGraph } from './graph.js';

/** Shares are whole parts per 10¹², so that floor and ceiling are exact and nothing vanishes after many halvings. */
export const whole = 1_000_000_000_000n;

export interface Reached {
  readonly lot: string;
  /** Reached by certain links alone; otherwise in scope as possible. */
  readonly certain: boolean;
  /** At least and at most this share of the lot is the suspect; null where the records form a circle and no share can be said. */
  readonly min: bigint | null;
  readonly max: bigint | null;
  /** Links from the nearest suspect, 0 for a suspect itself. */
  readonly steps: number;
  /** The link by which it was first reached; null for a suspect. */
  readonly by: TraceFlow | null;
}

/**
 * Everything that holds the suspects, however indirectly, with the share of it that is theirs: bounds, not estimates.
 * `min` counts what is certain, `max` all that is possible. Linear in lots and flows, apart from a type.
 */
export function traceForward(graph: TraceGraph, suspects: readonly string[]): ReadonlyMap<string, Reached> {
  const out = byEnd(graph.flows, 'source');
  const into = byEnd(graph.flows, 'target');
  const steps = reach(out, suspects, () => true);
  const certainly = certainReach(out, into, suspects);
  const reached = new Map<string, Reached>();
  const shares = new Map<string, readonly [bigint, bigint] | null>();
  for (const lot of inOrder(into, steps)) {
    shares.set(lot, suspects.includes(lot) ? [whole, whole] : shareOf(into.get(lot) ?? [], shares, steps));
  }
  for (const [lot, { steps: n, by }] of steps) {
    const share = shares.get(lot) ?? null;
    reached.set(lot, { lot, certain: certainly.has(lot), min: share?.[0] ?? null, max: share?.[1] ?? null, steps: n, by });
  }
  return reached;
}

type Steps = ReadonlyMap<string, { readonly steps: number; readonly by: TraceFlow | null }>;

function reach(out: ReadonlyMap<string, readonly TraceFlow[]>, from: readonly string[], follow: (f: TraceFlow) => boolean): Steps {
  const seen = new Map<string, { steps: number; by: TraceFlow | null }>(from.map((lot) => [lot, { steps: 0, by: null }]));
  const queue = [...seen.keys()];
  for (let i = 0; i < queue.length; i += 1) {
    const lot = queue[i] ?? '';
    for (const f of out.get(lot) ?? []) {
      if (seen.has(f.target) || !follow(f)) continue;
      seen.set(f.target, { steps: (seen.get(lot)?.steps ?? 0) + 1, by: f });
      queue.push(f.target);
    }
  }
  return seen;
}

/** Certain: by a certain link from a certain lot, or where every one of an any-of group is certain, so that whichever it was held it. */
function certainReach(
  out: ReadonlyMap<string, readonly TraceFlow[]>,
  into: ReadonlyMap<string, readonly TraceFlow[]>,
  suspects: readonly string[],
): ReadonlySet<string> {
  const certain = new Set(suspects);
  const queue = [...certain];
  for (let i = 0; i < queue.length; i += 1) {
    for (const f of out.get(queue[i] ?? '') ?? []) {
      if (certain.has(f.target) || f.type === 'contact') continue;
      const group = f.anyOf === null ? [f] : (into.get(f.target) ?? []).filter((g) => g.anyOf === f.anyOf);
      if (!(f.certain || (f.anyOf !== null && group.every((g) => certain.has(g.source))))) continue;
      certain.add(f.target);
      queue.push(f.target);
    }
  }
  return certain;
}

/** The reached lots, each after all reached lots that go into it; lots on a circle are left out and get no share. */
function inOrder(into: ReadonlyMap<string, readonly TraceFlow[]>, steps: Steps): string[] {
  const open = new Map<string, number>();
  const next = new Map<string, string[]>();
  for (const lot of steps.keys()) {
    const sources = [...new Set((into.get(lot) ?? []).filter((f) => f.type !== 'contact' && steps.has(f.source)).map((f) => f.source))];
    open.set(lot, sources.length);
    for (const s of sources) next.set(s, [...(next.get(s) ?? []), lot]);
  }
  const order = [...open].filter(([, n]) => n === 0).map(([lot]) => lot);
  for (let i = 0; i < order.length; i += 1) {
    for (const lot of next.get(order[i] ?? '') ?? []) {
      const left = (open.get(lot) ?? 0) - 1;
      open.set(lot, left);
      if (left === 0) order.push(lot);
    }
  }
  return order;
}

function shareOf(
  flows: readonly TraceFlow[],
  shares: ReadonlyMap<string, readonly [bigint, bigint] | null>,
  steps: Steps,
): readonly [bigint, bigint] | null {
  const intakes = intakesOf(flows);
  const ends: (readonly [bigint, bigint])[] = [];
  for (const { flows: group } of intakes) {
    const of = group.map((f) => (steps.has(f.source) ? (shares.get(f.source) ?? null) : ([0n, 0n] as const)));
    if (of.includes(null)) return null;
    const known = of.filter((s) => s !== null);
    const possible = group.length === 1 && group[0]?.certain === false;
    ends.push([possible ? 0n : lowest(known.map(([min]) => min)), highest(known.map(([, max]) => max))]);
  }
  const weights = weightsOf(intakes);
  if (!weights) return [0n, highest(ends.map(([, max]) => max))]; // no amounts: it cannot be more than its strongest part
  const total = weights.reduce((a, b) => a + b, 0n);
  if (total === 0n) return [0n, highest(ends.map(([, max]) => max))];
  const sum = (end: 0 | 1): bigint => ends.reduce((acc, e, i) => acc + e[end] * (weights[i] ?? 0n), 0n);
  return [sum(0) / total, (sum(1) + total - 1n) / total];
}

function weightsOf(intakes: readonly Intake[]): readonly bigint[] | null {
  if (intakes.length === 1) return [1n];
  const mg = intakes.map((i) => i.mg);
  if (mg.every((m) => m !== null)) return mg.map((m) => BigInt(m));
  const pieces = intakes.map((i) => i.pieces);
  return pieces.every((p) => p !== null) ? pieces.map((p) => BigInt(p)) : null;
}

const lowest = (list: readonly bigint[]): bigint => list.reduce((a, b) => (b < a ? b : a), whole);
const highest = (list: readonly bigint[]): bigint => list.reduce((a, b) => (b > a ? b : a), 0n);

/** Milligrams of the suspect in a lot: at least (floor) and at most (ceiling), from a share and what went into the lot. */
export function amountHeld(share: { min: bigint | null; max: bigint | null }, mg: number): { minMg: number; maxMg: number } | null {
  if (share.min === null || share.max === null) return null;
  return { minMg: Number((share.min * BigInt(mg)) / whole), maxMg: Number((share.max * BigInt(mg) + whole - 1n) / whole) };
}
