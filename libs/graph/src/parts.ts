import { intakesOf, type TraceFlow, type TraceGraph, type TraceLot } from './graph.js';
import type { Bounds, Held, Part } from './share.js';

/** The share of a source: its bounds, and whether they say anything. */
export interface Share {
  readonly bounds: Bounds;
  readonly said: boolean;
  /** Milligrams of the suspect; null where nothing went in by mass. */
  readonly held: Held | null;
}
/** How much a line may have been at most, by how much there was of the lot that it came from. */
export type Capacity = (lot: string) => bigint | null;

/**
 * A line cannot have been more than there was of its lot. A lot of which more went than there was, by the records, bounds nothing: then
 * one of its figures is wrong.
 */
export function capacityIn(lots: TraceGraph['lots'], out: ReadonlyMap<string, readonly TraceFlow[]>): Capacity {
  const known = new Map<string, bigint | null>();
  const find = (id: string): bigint | null => {
    const lot = lots.get(id);
    const mg = lot === undefined ? null : maxOf(lot);
    if (mg === null) return null;
    const gone = (out.get(id) ?? []).reduce((n, f) => n + (f.certain ? (massOf(f, lot) ?? 0) : 0), 0);
    return gone > mg ? null : BigInt(mg);
  };
  return (id) => {
    const before = known.get(id);
    const found = before === undefined ? find(id) : before;
    known.set(id, found);
    return found;
  };
}

/** What there was of a lot at most: what went in or what came out, whichever is more, so that what was added after it was weighed counts. */
const maxOf = ({ mg, outMg }: TraceLot): number | null => (mg === null || outMg === null ? (mg ?? outMg) : Math.max(mg, outMg));

/** Milligrams of a flow: as weighed, or as many pieces as were counted at what one of them weighs. */
function massOf({ mg, pieces }: TraceFlow, source: TraceLot | undefined): number | null {
  const pieceMg = source?.pieceMg ?? null;
  return mg ?? (pieces === null || pieceMg === null ? null : pieces * pieceMg);
}

interface Taken {
  readonly flows: readonly TraceFlow[];
  readonly masses: readonly (number | null)[];
}

/** What went into one lot. In doubt where amounts that matter are missing, or where one of its sources has no share that can be said. */
export interface Parts {
  readonly parts: readonly Part[];
  readonly doubt: boolean;
  /** The amounts are pieces, not milligrams. */
  readonly counted: boolean;
}

/** What went into one lot, as parts of it. Pieces are added (`byCount`) only where all of it is pieces of one material. */
export function partsOf(
  flows: readonly TraceFlow[],
  lots: TraceGraph['lots'],
  shareOf: (lot: string) => Share,
  capacity: Capacity,
  byCount: boolean,
): Parts {
  const taken = intakesOf(flows).map((group): Taken => ({ flows: group, masses: group.map((f) => massOf(f, lots.get(f.source))) }));
  const counted = byCount && taken.every((t) => t.masses.every((m) => m === null)) && ofOneMaterial(flows, lots);
  const all = counted ? taken.map((t) => ({ ...t, masses: t.flows.map((f) => f.pieces) })) : taken;
  const surely = all.some((t) => t.flows.length > 1 || t.flows[0]?.certain === true);
  const shares = all.map((t) => t.flows.map((f) => shareOf(f.source)));
  return {
    parts: all.map((t, i) => partOf(t, shares[i] ?? [], surely, capacity)),
    counted,
    doubt: (all.length > 1 && all.some((t) => t.masses.includes(null))) || shares.some((of) => of.some((s) => !s.said)),
  };
}

const ofOneMaterial = (flows: readonly TraceFlow[], lots: TraceGraph['lots']): boolean =>
  flows.every((f) => f.pieces !== null && lots.has(f.source)) && new Set(flows.map((f) => lots.get(f.source)?.material)).size === 1;

/** Something surely went in, or the one line that may have is all there is: then what it holds is not certain either. */
function partOf({ flows, masses }: Taken, shares: readonly Share[], surely: boolean, capacity: Capacity): Part {
  const possible = flows.length === 1 && flows[0]?.certain === false;
  const known = masses.filter((m) => m !== null).map(BigInt);
  const weighed = known.length === masses.length;
  const mins = shares.map((s) => s.bounds[0]);
  return {
    weighed,
    sure: !possible,
    least: possible || !weighed ? 0n : lowest(known),
    most: weighed ? highest(known) : roomOf(flows, capacity),
    min: surely ? lowest(mins) : 0n,
    max: highest(shares.map((s) => s.bounds[1])),
  };
}

function roomOf(flows: readonly TraceFlow[], capacity: Capacity): bigint | null {
  return flows.reduce<bigint | null>((room, f) => {
    const more = capacity(f.source);
    return room === null || more === null ? null : room + more;
  }, 0n);
}

const lowest = (list: readonly bigint[]): bigint => list.reduce((a, b) => (b < a ? b : a));
const highest = (list: readonly bigint[]): bigint => list.reduce((a, b) => (b > a ? b : a));
