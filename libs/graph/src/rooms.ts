import type { TraceFlow, TraceGraph, TraceLot } from './graph.js';
import { lower, sum } from './share.js';

/** Milligrams of a flow: as weighed, or as many pieces as were counted at what one of them weighs. Null where nobody knows. */
export function massOf({ mg, pieces }: TraceFlow, source: TraceLot | undefined): bigint | null {
  if (mg !== null) return BigInt(mg);
  if (pieces === null || source === undefined) return null;
  if (source.outMg !== null && source.pieces) return (BigInt(pieces) * BigInt(source.outMg)) / BigInt(source.pieces);
  return source.pieceMg === null ? null : BigInt(pieces) * BigInt(source.pieceMg);
}

/** How much a flow may have been at most, by how much there was of its lot and what else surely became of that; null where nothing bounds it. */
export type Room = (f: TraceFlow) => bigint | null;

/** What surely went of a lot, before and after it was last counted; where nobody counted it, all of it is before. */
interface Used {
  readonly before: bigint;
  readonly after: bigint;
}

/**
 * A flow cannot have been more than there was of its lot, less what surely went elsewhere, less what was still there when it was counted. A lot of
 * which more went than there was, by the records, bounds nothing: then one of its figures is wrong.
 */
export function roomIn(lots: TraceGraph['lots'], out: ReadonlyMap<string, readonly TraceFlow[]>): Room {
  const known = new Map<string, Used>();
  const sure = (f: TraceFlow): bigint => (f.certain ? (massOf(f, lots.get(f.source)) ?? 0n) : 0n);
  const usedOf = (lot: TraceLot): Used => {
    const used = known.get(lot.id) ?? { before: sum(beforeCount(lot, out), sure), after: sum(afterCount(lot, out), sure) };
    known.set(lot.id, used);
    return used;
  };
  return (f) => {
    const lot = lots.get(f.source);
    const there = lot === undefined ? null : thereWas(lot);
    if (lot === undefined || there === null) return null;
    const { before, after } = usedOf(lot);
    const counted = BigInt(lot.leftMg ?? 0);
    const room = lot.leftAt !== null && f.at > lot.leftAt ? counted - after : there - BigInt(lot.awayMg) - counted - before;
    return room < 0n ? null : room + sure(f);
  };
}

/** Of what surely was taken of a lot: milligrams that were weighed, and milligrams of what was counted. */
export interface Taken {
  readonly weighed: bigint;
  readonly counted: bigint;
}
export function surelyTakenIn(out: ReadonlyMap<string, readonly TraceFlow[]>): (lot: TraceLot) => Taken {
  const known = new Map<string, Taken>();
  return (lot) => {
    const sure = known.has(lot.id) ? [] : (out.get(lot.id) ?? []).filter((f) => f.certain);
    const taken = known.get(lot.id) ?? {
      weighed: sum(sure, (f) => BigInt(f.mg ?? 0)),
      counted: sum(sure, (f) => (f.mg === null ? (massOf(f, lot) ?? 0n) : 0n)),
    };
    known.set(lot.id, taken);
    return taken;
  };
}

const beforeCount = ({ id, leftAt }: TraceLot, out: ReadonlyMap<string, readonly TraceFlow[]>): readonly TraceFlow[] =>
  (out.get(id) ?? []).filter((f) => leftAt === null || f.at <= leftAt);
const afterCount = ({ id, leftAt }: TraceLot, out: ReadonlyMap<string, readonly TraceFlow[]>): readonly TraceFlow[] =>
  (out.get(id) ?? []).filter((f) => leftAt !== null && f.at > leftAt);

/** What there was of a lot at most: what went in or what came out, whichever is more, so that what was added after it was weighed counts. */
export function thereWas({ mg, outMg }: TraceLot): bigint | null {
  const most = mg === null || outMg === null ? (mg ?? outMg) : Math.max(mg, outMg);
  return most === null ? null : BigInt(most);
}

/**
 * How much of one amount may have come from each of the lots that it was one of, or more. Null where the amount is not one, is not known, or is more
 * than all of them had together: then one of the figures is wrong, and nobody knows which.
 */
export function roomsOf(
  flows: readonly TraceFlow[],
  amounts: readonly (bigint | null)[],
  room: Room,
): { readonly amount: bigint; readonly rooms: readonly bigint[] } | null {
  const amount = amounts[0] ?? null;
  if (amount === null || amounts.some((a) => a !== amount)) return null;
  const rooms = flows.map((f) => lower(room(f) ?? amount, amount));
  return sum(rooms, (r) => r) < amount ? null : { amount, rooms };
}
