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
  /** Whether it may weigh less than that by any of what is not the suspect: baked pieces, by what they were scaled at. */
  readonly dries: boolean;
  /** How much of the suspect it holds where that is known better than by its amount and its share: counted pieces. */
  readonly held: Held | null;
  readonly min: bigint;
  readonly max: bigint;
}
/** What a lot weighed in the end, and how much of what it lost is known to have carried none of the suspect: `all` of it where that was water. */
export interface WeighedOut {
  readonly mg: bigint;
  readonly evaporated: bigint | 'all';
}
export type Bounds = readonly [min: bigint, max: bigint];
/** Milligrams at least, and at most; null where nothing bounds them. */
export type Held = readonly [least: bigint, most: bigint | null];

/** Milligrams of a flow, at least and at most; null at most where nothing bounds it. */
export interface Mass {
  readonly least: bigint;
  readonly most: bigint | null;
}

/** Shares of a mixture of these parts with nothing lost: the exact extremes over every amount that each part may have. */
export function shareOfAll(parts: readonly Part[]): Bounds {
  const max = highestRatio(parts.map((p) => ({ ...p, of: p.max, left: p.dries ? p.max : whole })));
  const clean = highestRatio(parts.map((p) => ({ ...p, of: whole - p.min, left: whole })));
  if (max !== null && clean !== null) return [whole - clean, max];
  return [parts.reduce((low, p) => (p.min < low ? p.min : low), whole), parts.reduce((high, p) => (p.max > high ? p.max : high), 0n)];
}

/** How much of the suspect all of these parts may hold together. */
export function heldIn(parts: readonly Part[]): Held {
  const most = sumOrNull(parts, heldAtMost);
  return [sum(parts, surelyHeld) / whole, most === null ? null : ceiling(most, whole)];
}
/** Shares by how much they surely hold of all that they may be, and may hold of all that they surely are: narrower where counted pieces are known better so. */
export function byHeld(parts: readonly Part[]): Bounds {
  const [[held, mayHold], most] = [heldIn(parts), sumOrNull(parts, (p) => p.most)];
  const least = sum(parts, (p) => (p.dries ? (p.least * p.min) / whole : p.least));
  const max = mayHold === null || least === 0n ? whole : lower(whole, ceiling(mayHold * whole, least));
  return [most === null || most === 0n ? 0n : lower(whole, (held * whole) / most), max];
}

/** In parts of the whole, so that nothing is rounded before all of it is added. */
const surelyHeld = (p: Part): bigint => higher(p.least * p.min, (p.held?.[0] ?? 0n) * whole);
function heldAtMost({ most, max, held }: Part): bigint | null {
  const byShare = max === 0n ? 0n : most === null ? null : most * max;
  const known = held?.[1] ?? null;
  return known === null ? byShare : byShare === null ? known * whole : lower(byShare, known * whole);
}
const sumOrNull = <T>(list: readonly T[], of: (one: T) => bigint | null): bigint | null =>
  list.reduce<bigint | null>((all, one) => {
    const more = of(one);
    return all === null || more === null ? null : all + more;
  }, 0n);

/** An amount of which a part is `of` what is looked for, and a part is `left` of it in the end, in parts of the whole. */
interface Lump extends Pick<Part, 'least' | 'most'> {
  readonly of: bigint;
  readonly left: bigint;
}

/** Greedy: the highest parts at their most for as long as they raise the mixture, the others at their least. Null where there is no mass at all. */
function highestRatio(lumps: readonly Lump[]): bigint | null {
  let [total, held] = [0n, 0n];
  for (const p of lumps) {
    total += p.least * p.left;
    held += p.least * p.of;
  }
  const ratio = ({ of, left }: Lump): bigint => (left === 0n ? 0n : (of * whole) / left);
  for (const p of [...lumps].sort((a, b) => compare(ratio(b), ratio(a)))) {
    if (total > 0n && p.of * total <= held * p.left) break;
    if (p.most === null) return p.left === 0n ? 0n : ceiling(p.of * whole, p.left);
    total += (p.most - p.least) * p.left;
    held += (p.most - p.least) * p.of;
  }
  return total === 0n ? null : ceiling(held * whole, total);
}

/**
 * Shares of what was weighed out, and milligrams. What is known of the parts is K, what came out O.
 *
 * - K ≤ O: nothing was lost. Unweighed parts are what is missing to O; what they cannot fill, or may not have filled, nobody recorded: it may be
 *   anything.
 * - K > O: the rest was lost. Water took none of the suspect with it, any other loss took as much of it as it could or none. An unweighed part
 *   is what came of it in the end: up to all of O, and the more of it there is the more was lost of the rest.
 *
 * Baked pieces weighed less than is known of them by what they lost in the oven, so that an unweighed part, or what nobody recorded, may be more.
 * That something went in that nobody recorded is said only where their full weight does not explain what came out.
 *
 * Parts that may not have gone in at all can make both cases possible; then the bounds hold in both.
 */
export function shareOfOut(
  parts: readonly Part[],
  { mg: out, evaporated }: WeighedOut,
): { readonly bounds: Bounds; readonly held: Bounds } {
  const [known, unweighed] = [parts.filter((p) => p.weighed), parts.filter((p) => !p.weighed)];
  const [least, most] = [sum(known, (p) => p.least), sumOrNull(known, (p) => p.most)];
  const missing = higher(0n, out - least);
  const [lost, whollyThere] = [most === null || most > out, least <= out];
  const room = higher(0n, out - sum(known, (p) => (p.dries ? (p.least * p.min) / whole : p.least)));
  const rich = fill(unweighed, lost ? out : room, (p) => (p.sure && !(p.dries && p.max > 0n) ? p.max : whole), -1);
  const notFilled = (of: bigint): bigint => higher(0n, of - sum(unweighed, (p) => lower(p.most ?? of, of)));
  const neverRecorded = notFilled(missing) === 0n ? 0n : notFilled(room);
  const high = sum(known, (p) => heldAtMost(p) ?? out * whole) + rich + neverRecorded * whole;
  const surely = sum(known, surelyHeld);
  const withoutLoss = whollyThere
    ? surely + fill(unweighed, most === null ? 0n : higher(0n, out - most), (p) => (p.sure ? p.min : 0n), 1)
    : null;
  const withLoss = lost ? (evaporated === 'all' ? surely : leftOf(parts, surely, out, evaporated)) : null;
  const low = withoutLoss === null ? (withLoss ?? 0n) : withLoss === null ? withoutLoss : lower(withoutLoss, withLoss);
  const [lowEnd, highEnd] = [lower(low, out * whole), lower(high, out * whole)];
  return { bounds: [lowEnd / out, ceiling(highEnd, out)], held: [lowEnd / whole, ceiling(highEnd, whole)] };
}

/** What is left of what surely went in where anything may have been lost but so much: no less than what is not the suspect cannot fill. */
function leftOf(parts: readonly Part[], surely: bigint, out: bigint, evaporated: bigint): bigint {
  const room = out + evaporated;
  const cleanIn = ({ weighed, most, min }: Part): bigint => (weighed ? (most ?? room) : lower(most ?? out, out)) * (whole - min);
  if (parts.some((p) => p.weighed && p.most === null && p.min < whole)) return 0n;
  const clean = sum(parts, cleanIn);
  return higher(0n, lower(surely, room * whole - clean));
}

/** So much room filled with parts, those with the most (−1) or the least (1) of it first. */
export function fill<P extends Pick<Part, 'most'>>(parts: readonly P[], room: bigint, of: (p: P) => bigint, order: 1 | -1): bigint {
  let [left, held] = [room, 0n];
  for (const p of [...parts].sort((a, b) => order * compare(of(a), of(b)))) {
    const taken = lower(p.most ?? left, left);
    left -= taken;
    held += taken * of(p);
  }
  return held;
}

export const sum = <T>(list: readonly T[], of: (one: T) => bigint): bigint => list.reduce((total, one) => total + of(one), 0n);
export const lowest = (list: readonly bigint[]): bigint => list.reduce(lower, list[0] ?? 0n);
export const highest = (list: readonly bigint[]): bigint => list.reduce(higher, list[0] ?? 0n);
const compare = (a: bigint, b: bigint): number => (a < b ? -1 : a > b ? 1 : 0);
export const lower = (a: bigint, b: bigint): bigint => (a < b ? a : b);
export const higher = (a: bigint, b: bigint): bigint => (a > b ? a : b);
export const ceiling = (a: bigint, b: bigint): bigint => (a + b - 1n) / b;
