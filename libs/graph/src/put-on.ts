import type { PutOn, TraceFlow, TraceLot } from './graph.js';
import { ceiling, higher, lower, type Mass, type Part } from './share.js';

/** What was put on a lot's pieces counts for those that left then: null for what nobody says the time of. */
type Then = string | null;

/** Of the same instant nobody knows which came first: then they surely have none of it. */
const leftBefore = (then: Then, on: { readonly at: string }): boolean => then !== null && then <= on.at;

/** So many of all pieces share what was put on those that were still there: of how many that was, at least. */
const stillThere = (all: bigint, gone: number | null): bigint => (gone === null ? 1n : higher(1n, all - BigInt(gone)));

/** All that was put on a lot's pieces, in milligrams: at least, and at most; null where nobody weighed it. */
export const allPutOn = (putOn: readonly PutOn[]): { readonly minMg: number; readonly maxMg: number | null } => ({
  minMg: putOn.reduce((sum, on) => sum + on.minMg, 0),
  maxMg: putOn.reduce<number | null>((sum, on) => (sum === null || on.maxMg === null ? null : sum + on.maxMg), 0),
});

/**
 * What of it is on so many of its pieces that left at a time, each of those that were there alike. Those that had left before surely have none of it; a time
 * is as good as the clock and the hand that wrote it, so that they may have what would have been theirs. What had only been counted out by then (`stays`) was
 * there still, and may have all of it or none.
 */
export function putOnThen(
  { putOn }: TraceLot,
  { pieces, all, then, stays }: { pieces: bigint; all: bigint; then: Then; stays: boolean },
): Mass {
  let [least, most]: [bigint, bigint | null] = [0n, 0n];
  for (const on of putOn) {
    const before = leftBefore(then, on);
    if (!before) least += (BigInt(on.minMg) * pieces) / all;
    if (on.maxMg === null) most = null;
    if (most === null || on.maxMg === null) continue;
    const max = BigInt(on.maxMg);
    const even = ceiling(max * pieces, all);
    // No more than all of it, but where more pieces left than there were.
    most += before ? (stays ? higher(max, even) : even) : lower(higher(max, even), ceiling(max * pieces, stillThere(all, on.gone)));
  }
  return { least, most };
}

/** The times at which something was put on a lot's pieces: between them it matters when some left. */
export function timesPutOn(lot: TraceLot | undefined, flows: readonly TraceFlow[]): readonly string[] {
  if (!lot?.pieces) return [];
  return [...new Set(flows.flatMap((f) => (f.putOn === true ? [f.at] : [])))].sort();
}

/** A part of all pieces as it counts for those that left then, as though all were like them. */
export function partThen(part: Part, f: TraceFlow, lot: TraceLot, then: Then): Part {
  if (f.putOn !== true) return part;
  if (leftBefore(then, f)) return { ...part, sure: false, least: 0n, held: part.held && [0n, part.held[1]] };
  const all = BigInt(lot.pieces ?? 0);
  // Several that were put on at one instant have one number that had left by then; null is that nobody knows it.
  const on = lot.putOn.find((one) => one.at === f.at);
  const there = stillThere(all, on === undefined ? 0 : on.gone);
  const most = (mg: bigint | null): bigint | null => (mg === null ? null : ceiling(mg * all, there));
  return { ...part, most: most(part.most), held: part.held && [part.held[0], most(part.held[1])] };
}
