/** Shares are whole parts per 10¹², so that floor and ceiling are exact and nothing vanishes after many halvings. */
export const whole = 1_000_000_000_000n;

/** One amount that went into a lot: how much it may have been in milligrams, and how much of it may be the suspect. */
export interface Part {
  readonly least: bigint;
  /** Null where nothing bounds it. */
  readonly most: bigint | null;
  /** Whether its amount is on record; an amount that is not is what came of the line in the end. */
  readonly weighed: boolean;
  /** Whether it surely went in. */
  readonly sure: boolean;
  readonly min: bigint;
  readonly max: bigint;
}
/** What a lot weighed in the end, and how much of what it lost is known to have carried none of the suspect. */
export interface WeighedOut {
  readonly mg: bigint;
  readonly evaporated: bigint;
}
export type Bounds = readonly [min: bigint, max: bigint];
/** Milligrams at least, and at most; null where nothing bounds them. */
export type Held = readonly [least: bigint, most: bigint | null];

/** Shares of a mixture of these parts with nothing lost: the exact extremes over every amount that each part may have. */
export function shareOfAll(parts: readonly Part[]): Bounds {
  const max = highestRatio(parts, (p) => p.max);
  const clean = highestRatio(parts, (p) => whole - p.min);
  if (max !== null && clean !== null) return [whole - clean, max];
  return [parts.reduce((low, p) => (p.min < low ? p.min : low), whole), parts.reduce((high, p) => (p.max > high ? p.max : high), 0n)];
}

/** How much of the suspect all of these parts may hold together. */
export function heldIn(parts: readonly Part[]): Held {
  const held = parts.filter((p) => p.max > 0n);
  const most = held.some((p) => p.most === null)
    ? null
    : ceiling(
        sum(held, (p) => (p.most ?? 0n) * p.max),
        whole,
      );
  return [sum(parts, (p) => p.least * p.min) / whole, most];
}

/** Greedy: the highEnd parts at their most for as long as they raise the mixture, the others at their least. Null where there is no mass at all. */
function highestRatio(parts: readonly Part[], of: (p: Part) => bigint): bigint | null {
  let [total, held] = [0n, 0n];
  for (const p of parts) {
    total += p.least;
    held += p.least * of(p);
  }
  for (const p of [...parts].sort((a, b) => compare(of(b), of(a)))) {
    if (total > 0n && of(p) * total <= held) break;
    if (p.most === null) return of(p);
    total += p.most - p.least;
    held += (p.most - p.least) * of(p);
  }
  return total === 0n ? null : ceiling(held, total);
}

/**
 * Shares of what was weighed out, and milligrams. What is known of the parts is K, what came out O.
 *
 * - K ≤ O: nothing was lost. Unweighed parts are what is missing to O; what they cannot fill, or may not have filled, nobody recorded: it may be
 *   anything.
 * - K > O: the rest was lost. Water took none of the suspect with it, any other loss took as much of it as it could or none. An unweighed part
 *   is what came of it in the end: up to all of O, and the more of it there is the more was lost of the rest.
 *
 * Parts that may not have gone in at all can make both cases possible; then the bounds hold in both.
 */
export function shareOfOut(
  parts: readonly Part[],
  { mg: out, evaporated }: WeighedOut,
): { readonly bounds: Bounds; readonly held: Bounds } {
  const [known, unweighed] = [parts.filter((p) => p.weighed), parts.filter((p) => !p.weighed)];
  const [least, most] = [sum(known, (p) => p.least), sum(known, (p) => p.most ?? p.least)];
  const missing = higher(0n, out - least);
  const [lost, whollyThere] = [most > out, least <= out];
  const rich = fill(unweighed, lost ? out : missing, (p) => (p.sure ? p.max : whole), -1);
  const neverRecorded = higher(0n, missing - sum(unweighed, (p) => lower(p.most ?? missing, missing)));
  const high = sum(known, (p) => (p.most ?? p.least) * p.max) + rich + neverRecorded * whole;
  const surely = sum(known, (p) => p.least * p.min);
  const withoutLoss = whollyThere ? surely + fill(unweighed, higher(0n, out - most), (p) => (p.sure ? p.min : 0n), 1) : null;
  const roomFor = (p: Part): bigint => (p.weighed ? (p.most ?? p.least) : lower(p.most ?? out, out));
  const clean = sum(parts, (p) => roomFor(p) * (whole - p.min));
  const withLoss = lost ? higher(0n, lower(surely, (out + evaporated) * whole - clean)) : null;
  const low = withoutLoss === null ? (withLoss ?? 0n) : withLoss === null ? withoutLoss : lower(withoutLoss, withLoss);
  const [lowEnd, highEnd] = [lower(low, out * whole), lower(high, out * whole)];
  return { bounds: [lowEnd / out, ceiling(highEnd, out)], held: [lowEnd / whole, ceiling(highEnd, whole)] };
}

/** So much room filled with parts, those with the most (−1) or the least (1) of it first. */
function fill(parts: readonly Part[], room: bigint, of: (p: Part) => bigint, order: 1 | -1): bigint {
  let [left, held] = [room, 0n];
  for (const p of [...parts].sort((a, b) => order * compare(of(a), of(b)))) {
    const taken = lower(p.most ?? left, left);
    left -= taken;
    held += taken * of(p);
  }
  return held;
}

const sum = (parts: readonly Part[], of: (p: Part) => bigint): bigint => parts.reduce((total, p) => total + of(p), 0n);
const compare = (a: bigint, b: bigint): number => (a < b ? -1 : a > b ? 1 : 0);
const lower = (a: bigint, b: bigint): bigint => (a < b ? a : b);
const higher = (a: bigint, b: bigint): bigint => (a > b ? a : b);
const ceiling = (a: bigint, b: bigint): bigint => (a + b - 1n) / b;
