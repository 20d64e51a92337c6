import type { TraceFlow, TraceGraph, TraceLot } from './graph.js';
import { allPutOn, leftAt, putOnThen } from './put-on.js';
import { ceiling, lower, sum, type Mass } from './share.js';

/** Pieces that were counted, whatever they were worked out to weigh when they were. */
export const isCounted = ({ mg, pieces, type }: TraceFlow): boolean => pieces !== null && (mg === null || type === 'batched');

/** Pieces that got a code of their own and stayed where they were. */
export const isCountedOut = ({ type }: TraceFlow): boolean => type === 'batched';

/** A flow as weighed, or as many pieces as were counted at what one of them weighs, with its part of what was put on them. Null where nobody knows. */
export function massOf(f: TraceFlow, source: TraceLot | undefined): Mass | null {
  if (isCounted(f) && source !== undefined)
    return countedMass(BigInt(f.pieces ?? 0), source, leftAt(f), isCountedOut(f)) ?? asWeighed(f.mg);
  return asWeighed(f.mg);
}
const asWeighed = (mg: number | null): Mass | null => (mg === null ? null : { least: BigInt(mg), most: BigInt(mg) });

/**
 * So many pieces of a lot that left then, with their part of what was put on them. Where they were weighed in the end nobody knows what of it was put on before that:
 * then at most all of it comes on top.
 */
export function countedMass(pieces: bigint, lot: TraceLot, left: ReturnType<typeof leftAt> | null, stays = false): Mass | null {
  const { outMg, pieces: count, pieceMg } = lot;
  if (outMg === null && pieceMg === null) return null;
  if (!count) return pieceMg === null ? null : { least: pieces * BigInt(pieceMg), most: pieces * BigInt(pieceMg) };
  const all = BigInt(count);
  const on = putOnThen(lot, { pieces, all, left, stays });
  const bare = outMg === null ? all * BigInt(pieceMg ?? 0) : BigInt(outMg);
  return {
    least: (pieces * bare) / all + (outMg === null ? on.least : 0n),
    most: on.most === null ? null : ceiling(pieces * bare, all) + on.most,
  };
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
  const sure = (f: TraceFlow): bigint => (f.certain ? (massOf(f, lots.get(f.source))?.least ?? 0n) : 0n);
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

/** Of what surely was taken of a lot: milligrams that were weighed, and pieces that were counted. */
export interface Taken {
  readonly weighed: bigint;
  readonly counted: bigint;
}
export function surelyTakenIn(out: ReadonlyMap<string, readonly TraceFlow[]>): (lot: TraceLot) => Taken {
  const known = new Map<string, Taken>();
  return (lot) => {
    const sure = known.has(lot.id) ? [] : (out.get(lot.id) ?? []).filter((f) => f.certain);
    const taken = known.get(lot.id) ?? {
      weighed: sum(sure, (f) => (isCounted(f) ? 0n : BigInt(f.mg ?? 0))),
      counted: sum(sure, (f) => (isCounted(f) ? BigInt(f.pieces ?? 0) : 0n)),
    };
    known.set(lot.id, taken);
    return taken;
  };
}

const beforeCount = ({ id, leftAt }: TraceLot, out: ReadonlyMap<string, readonly TraceFlow[]>): readonly TraceFlow[] =>
  (out.get(id) ?? []).filter((f) => leftAt === null || f.at <= leftAt);
const afterCount = ({ id, leftAt }: TraceLot, out: ReadonlyMap<string, readonly TraceFlow[]>): readonly TraceFlow[] =>
  (out.get(id) ?? []).filter((f) => leftAt !== null && f.at > leftAt);

/**
 * What there was of a lot at most: what went in or what came out, whichever is more, so that what was added after it was weighed counts; of pieces with
 * what was put on them.
 */
export function thereWas({ mg, outMg, pieceMg, putOn }: TraceLot): bigint | null {
  const { maxMg } = allPutOn(putOn);
  if (pieceMg !== null && maxMg === null) return null;
  const most = mg === null || outMg === null ? (mg ?? outMg) : Math.max(mg, outMg);
  return most === null ? null : BigInt(most) + BigInt(maxMg ?? 0);
}

/**
 * How much of one amount may have come from each of the lots that it was one of, or more. Null where the amount is not one, is not known, or is more
 * than all of them had together: then one of the figures is wrong, and nobody knows which.
 */
export function roomsOf(
  flows: readonly TraceFlow[],
  amounts: readonly (Mass | null)[],
  room: Room,
): { readonly amount: bigint; readonly rooms: readonly bigint[] } | null {
  const amount = amounts[0]?.least ?? null;
  if (amount === null || amounts.some((a) => a?.least !== amount || a.most !== amount)) return null;
  const rooms = flows.map((f) => lower(room(f) ?? amount, amount));
  return sum(rooms, (r) => r) < amount ? null : { amount, rooms };
}
