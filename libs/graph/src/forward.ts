import { grouped } from '@bakehouse/kernel';
import { byEnd, type TraceFlow, type TraceGraph, type TraceLot } from './graph.js';
import { capacityIn, partsOf, type Capacity, type Parts, type Share } from './parts.js';
import { heldIn, shareOfAll, shareOfOut, whole, type Bounds, type Part } from './share.js';

export interface Reached {
  readonly lot: string;
  /** Reached by certain links alone; otherwise in scope as possible. */
  readonly certain: boolean;
  /** At least and at most this share of the lot is the suspect, by mass; null where no share can be said. */
  readonly min: bigint | null;
  readonly max: bigint | null;
  /** Milligrams of the suspect in it, at least and at most; null where it cannot be said, or where nothing bounds it. */
  readonly minMg: number | null;
  readonly maxMg: number | null;
  /** Links from the nearest suspect, 0 for a suspect itself. */
  readonly steps: number;
  /** The link by which it was first reached; null for a suspect. */
  readonly by: TraceFlow | null;
}

/**
 * Everything that holds the suspects, however indirectly, with the share of it that is theirs: bounds that hold in every world that fits the
 * records, not estimates. Linear in lots and flows but for sorting what goes into one lot.
 *
 * - A share is of what came out, where that was weighed, else of what went in. Pieces count by what one of them weighs.
 * - A line that nobody weighed may be nothing, or all that there was of its lot. *At most* survives it where it holds none of the suspect; *at
 *   least* survives it where it holds some, where its lot had only so much, or where the total was weighed.
 * - No share is said where lots form a circle and after one, where only a contact leads there (a contact has no mass), and where amounts are
 *   missing and the bounds would be nothing and all.
 */
export function traceForward(graph: TraceGraph, suspects: readonly string[]): ReadonlyMap<string, Reached> {
  const out = byEnd(graph.flows, 'source');
  const into = byEnd(graph.flows, 'target');
  const steps = reach(out, suspects, () => true);
  const certainly = certainReach(out, graph.flows, suspects);
  const shares = sharesIn(graph, out, into, suspects);
  const reached = new Map<string, Reached>();
  for (const [lot, { steps: n, by }] of steps) {
    const share = shares.get(lot);
    const [min, max] = share?.said === true ? share.bounds : [null, null];
    const [minMg, maxMg] = (share?.held ?? [null, null]).map((mg) => (mg === null ? null : Number(mg)));
    reached.set(lot, { lot, certain: certainly.has(lot), min, max, minMg: minMg ?? null, maxMg: maxMg ?? null, steps: n, by });
  }
  return reached;
}

/** The share of every lot that the suspect went into with some mass; lots on a circle, and after one, have none. */
function sharesIn(
  { flows, lots }: TraceGraph,
  out: ReadonlyMap<string, readonly TraceFlow[]>,
  into: ReadonlyMap<string, readonly TraceFlow[]>,
  suspects: readonly string[],
): ReadonlyMap<string, Share> {
  const held = reach(out, suspects, (f) => f.type !== 'contact');
  const capacity = capacityIn(lots, out);
  const shares = new Map<string, Share>(suspects.map((lot) => [lot, allOf(lots.get(lot))]));
  const shareOf = (lot: string): Share => shares.get(lot) ?? noneOfIt;
  for (const lot of inOrder(flows, held, new Set(suspects))) {
    if (!shares.has(lot)) shares.set(lot, shareIn(lots.get(lot), into.get(lot) ?? [], lots, shareOf, capacity));
  }
  return shares;
}

const noneOfIt: Share = { bounds: [0n, 0n], said: true, held: [0n, 0n] };
function allOf(lot: TraceLot | undefined): Share {
  const mg = lot?.outMg ?? lot?.mg ?? null;
  return { bounds: [whole, whole], said: true, held: mg === null ? null : [BigInt(mg), BigInt(mg)] };
}

/** What went in before it was weighed out is one part of so much; what went in or on afterwards comes on top. */
function shareIn(
  lot: TraceLot | undefined,
  into: readonly TraceFlow[],
  lots: TraceGraph['lots'],
  shareOf: (lot: string) => Share,
  capacity: Capacity,
): Share {
  const flows = into.filter((f) => f.type !== 'contact');
  const parts = (some: readonly TraceFlow[], byCount = false): Parts => partsOf(some, lots, shareOf, capacity, byCount);
  const { outMg, outAt } = lot ?? { outMg: null, outAt: null };
  if (!outMg || outAt === null) {
    const { parts: all, doubt, counted } = parts(flows, true);
    return { ...said(shareOfAll(all), doubt), held: counted ? null : heldIn(all) };
  }
  const [before, after] = [parts(flows.filter((f) => f.at <= outAt)), parts(flows.filter((f) => f.at > outAt))];
  const mg = BigInt(outMg);
  const out = shareOfOut(before.parts, { mg, evaporated: BigInt(lot?.evaporatedMg ?? 0) });
  const weighedOut: Part = { weighed: true, sure: true, least: mg, most: mg, min: out.bounds[0], max: out.bounds[1] };
  const [least, most] = heldIn(after.parts);
  const held = [out.held[0] + least, most === null ? null : out.held[1] + most] as const;
  return { ...said(shareOfAll([weighedOut, ...after.parts]), before.doubt || after.doubt), held };
}

/** Between nothing and all, for want of an amount, says nothing. */
const said = (bounds: Bounds, doubt: boolean): Omit<Share, 'held'> => ({
  bounds,
  said: !(doubt && bounds[0] === 0n && bounds[1] === whole),
});

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
  flows: readonly TraceFlow[],
  suspects: readonly string[],
): ReadonlySet<string> {
  const groupOf = (f: TraceFlow): string => `${f.anyOf ?? ''} ${f.target}`;
  const either = grouped(
    flows.filter((f) => f.anyOf !== null),
    groupOf,
  );
  const open = new Map([...either].map(([group, of]) => [group, new Set(of.map((f) => f.source))]));
  const certain = new Set(suspects);
  const queue = [...certain];
  for (let i = 0; i < queue.length; i += 1) {
    for (const f of out.get(queue[i] ?? '') ?? []) {
      const left = f.anyOf === null ? undefined : open.get(groupOf(f));
      left?.delete(f.source);
      if (certain.has(f.target) || f.type === 'contact') continue;
      if (!f.certain && left?.size !== 0) continue;
      certain.add(f.target);
      queue.push(f.target);
    }
  }
  return certain;
}

/** The reached lots, each after all reached lots that go into it; a suspect is one whatever goes into it. Lots on a circle are left out, and those after it. */
function inOrder(flows: readonly TraceFlow[], held: Steps, suspects: ReadonlySet<string>): string[] {
  const links = flows.filter((f) => f.type !== 'contact' && held.has(f.source) && held.has(f.target) && !suspects.has(f.target));
  const open = new Map([...held.keys()].map((lot) => [lot, 0]));
  for (const f of links) open.set(f.target, (open.get(f.target) ?? 0) + 1);
  const next = byEnd(links, 'source');
  const order = [...open].filter(([, n]) => n === 0).map(([lot]) => lot);
  for (let i = 0; i < order.length; i += 1) {
    for (const { target } of next.get(order[i] ?? '') ?? []) {
      const left = (open.get(target) ?? 0) - 1;
      open.set(target, left);
      if (left === 0) order.push(target);
    }
  }
  return order;
}
