import { earliestOf, latestOf } from '@bakehouse/kernel';
import type { PutOn, TraceFlow, TraceLot } from './graph.js';
import { ceiling, higher, lower, type Mass, type Part } from './share.js';

/** When pieces left, at the earliest and at the latest. */
interface Left {
  readonly earliest: string;
  readonly latest: string;
}
type Timed = Pick<TraceFlow, 'at' | 'earliest' | 'latest'>;
export const leftAt = (f: Timed): Left => ({ earliest: earliestOf(f), latest: latestOf(f) });

/** For what left by when something is worked out: null for what left after all that was put on. `inDoubt`: some of it may have left after it all the same. */
export interface By {
  readonly by: string | null;
  readonly inDoubt: boolean;
}

/** Of the same instant nobody knows which came first: then they surely have none of it. */
const mayBeBefore = (left: string, on: Timed): boolean => left <= latestOf(on);
const surelyBefore = (left: string, on: Timed): boolean => left <= earliestOf(on);

/** So many of all pieces share what was put on those that were still there: of how many that was, at least. */
const stillThere = (all: bigint, gone: number | null): bigint => (gone === null ? 1n : higher(1n, all - BigInt(gone)));

/** All that was put on a lot's pieces, in milligrams: at least, and at most; null where nobody weighed it. */
export const allPutOn = (putOn: readonly PutOn[]): { readonly minMg: number; readonly maxMg: number | null } => ({
  minMg: putOn.reduce((sum, on) => sum + on.minMg, 0),
  maxMg: putOn.reduce<number | null>((sum, on) => (sum === null || on.maxMg === null ? null : sum + on.maxMg), 0),
});

/**
 * What of it is on so many of its pieces that left at a time, each of those that were there alike. Those that had left before surely have none of it; a time
 * is as good as the clock and the hand that wrote it, so that they may have what would have been theirs. Where the times leave open which came first they have nothing of it at least, and
 * what those have that were there at most. What had only been counted out by then (`stays`) was there still, and may have all of it or none.
 */
export function putOnThen(
  { putOn }: TraceLot,
  { pieces, all, left, stays }: { pieces: bigint; all: bigint; left: Left | null; stays: boolean },
): Mass {
  let [least, most]: [bigint, bigint | null] = [0n, 0n];
  for (const on of putOn) {
    const before = left !== null && mayBeBefore(left.earliest, on);
    if (!before) least += (BigInt(on.minMg) * pieces) / all;
    if (on.maxMg === null) most = null;
    if (most === null || on.maxMg === null) continue;
    const max = BigInt(on.maxMg);
    const even = ceiling(max * pieces, all);
    // No more than all of it, but where more pieces left than there were.
    const shared = lower(higher(max, even), ceiling(max * pieces, stillThere(all, on.gone)));
    most += before && stays ? higher(max, even) : before && surelyBefore(left.latest, on) ? even : shared;
  }
  return { least, most };
}

/** The times by which something was put on a lot, pieces or not: it matters when some left. */
export function timesPutOn(lot: TraceLot | undefined, flows: readonly TraceFlow[]): readonly string[] {
  if (lot === undefined) return [];
  return [...new Set(flows.flatMap((f) => (f.putOn === true ? [latestOf(f)] : [])))].sort();
}

/** What was put on at this time or later, or may have been. */
export const putOnSince = (flows: readonly TraceFlow[], by: string): readonly TraceFlow[] =>
  flows.filter((f) => f.putOn === true && mayBeBefore(by, f));

/** A part of all pieces as it counts for those that left then, as though all were like them. */
export function partThen(part: Part, f: TraceFlow, lot: TraceLot, { by, inDoubt }: By): Part {
  if (f.putOn !== true) return part;
  const before = by !== null && mayBeBefore(by, f);
  const shared = before && !inDoubt ? part : sharedByRest(part, f, lot);
  return before ? { ...shared, sure: false, least: 0n, held: shared.held && [0n, shared.held[1]] } : shared;
}

/** With what those have of it that were there, since the others have none. */
function sharedByRest(part: Part, f: TraceFlow, lot: TraceLot): Part {
  if (!lot.pieces) return part;
  const all = BigInt(lot.pieces);
  // Several that were put on at one instant have one number that had left by then; null is that nobody knows it.
  const on = lot.putOn.find((one) => one.at === f.at);
  const there = stillThere(all, on === undefined ? 0 : on.gone);
  const most = (mg: bigint | null): bigint | null => (mg === null ? null : ceiling(mg * all, there));
  return { ...part, most: most(part.most), held: part.held && [part.held[0], most(part.held[1])] };
}
