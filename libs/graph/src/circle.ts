import { intakesOf, type TraceFlow } from './graph.js';
import { partsOf, type Drawn, type Share, type Sources } from './parts.js';
import { shareIn } from './share-in.js';
import { heldIn, higher, highest, lower, lowest, whole, type Bounds, type Held, type Part } from './share.js';

/** Bounds that move by less than a millionth are left as they are: they hold at every step, and only get narrower. */
const narrowEnough = whole / 1_000_000n;
const maxSteps = 20;

type Into = ReadonlyMap<string, readonly TraceFlow[]>;
interface OnCircle {
  readonly drawn: Drawn;
  readonly held: Held | null;
}

/**
 * The shares of lots on a circle. Which came first nobody knows: what a lot gave along was some mixture of what had come into it by then. So any amount
 * taken from it is between the lowest and the highest that came in, and holds no more of the suspect, and no more of anything else, than ever came
 * into the circle from outside. Begins with that for all of them, and narrows it by what went into each until nothing moves.
 */
export function sharesOnCircle(members: readonly string[], into: Into, from: Sources): ReadonlyMap<string, Share> {
  const first = drawnAnywhere(new Set(members), into, from);
  const now = new Map<string, OnCircle>(members.map((lot) => [lot, { drawn: first, held: null }]));
  const within: Sources = { ...from, shareOf: (lot) => shareOn(now.get(lot)) ?? from.shareOf(lot) };
  for (let [step, moved] = [0, true]; moved && step < maxSteps; step += 1) {
    moved = false;
    for (const lot of members) {
      const before = now.get(lot) ?? { drawn: first, held: null };
      const after = narrowed(before, partsOf(into.get(lot) ?? [], within, false).parts, (from.lots.get(lot)?.outMg ?? null) === null);
      moved ||= movedFar(before.drawn.bounds, after.drawn.bounds);
      now.set(lot, after);
    }
  }
  return new Map(
    members.map((lot) => {
      const { bounds, held } = shareIn(from.lots.get(lot), into.get(lot) ?? [], within);
      return [lot, { bounds, held, said: saysSomething(bounds), drawn: now.get(lot)?.drawn ?? first }];
    }),
  );
}

const saysSomething = ([min, max]: Bounds): boolean => min > 0n || max < whole;
const shareOn = (on: OnCircle | undefined): Share | undefined =>
  on && { bounds: on.drawn.bounds, said: saysSomething(on.drawn.bounds), ...on };
const movedFar = (a: Bounds, b: Bounds): boolean => b[0] - a[0] > narrowEnough || a[1] - b[1] > narrowEnough;

/** What came into the circle from outside bounds what is anywhere on it, unless something on it was weighed out: then more came, or it was dried. */
function drawnAnywhere(members: ReadonlySet<string>, into: Into, from: Sources): Drawn {
  const groups = [...members].flatMap((lot) => intakesOf(into.get(lot) ?? []));
  const inside = groups.filter((g) => g.some((f) => members.has(f.source)));
  const outside = groups.filter((g) => g.some((f) => !members.has(f.source)));
  const mixed = inside.some((g) => outside.includes(g));
  const anything: Drawn = { bounds: [0n, whole], suspect: null, clean: null };
  if ([...members].some((lot) => (from.lots.get(lot)?.outMg ?? null) !== null)) return anything;
  const parts = partsOf(
    outside.flat().filter((f) => !members.has(f.source)),
    from,
    false,
  ).parts;
  return parts.length === 0 || mixed ? anything : { bounds: hullOf(parts), ...amountsOf(parts, inside) };
}

/** Where one line on the circle is more than all that ever came in, it was not one amount taken at once, or a figure is wrong: it bounds nothing. */
function amountsOf(parts: readonly Part[], inside: readonly (readonly TraceFlow[])[]): Omit<Drawn, 'bounds'> {
  const all = heldIn(parts.map((p) => ({ ...p, held: null, max: whole })))[1];
  if (all === null || inside.some((g) => g.some((f) => BigInt(f.mg ?? 0) > all))) return { suspect: null, clean: null };
  return { suspect: heldIn(parts)[1], clean: heldIn(parts.map((p) => ({ ...p, held: null, max: whole - p.min })))[1] };
}

/** Narrower by what went into this lot: not where it was weighed out, as what was lost or never recorded changes what it holds. */
function narrowed({ drawn, held }: OnCircle, parts: readonly Part[], plain: boolean): OnCircle {
  if (!plain || parts.length === 0) return { drawn, held };
  const hull = hullOf(parts);
  const [, most] = heldIn(parts);
  const suspect = most === null ? drawn.suspect : drawn.suspect === null ? most : lower(most, drawn.suspect);
  return { drawn: { ...drawn, suspect, bounds: [higher(drawn.bounds[0], hull[0]), lower(drawn.bounds[1], hull[1])] }, held: [0n, suspect] };
}

/** Between the lowest and the highest of these. What dries in an oven may hold up to all of it. */
const hullOf = (parts: readonly Part[]): Bounds => [
  lowest(parts.map((p) => p.min)),
  highest(parts.map((p) => (p.dries && p.max > 0n ? whole : p.max))),
];
