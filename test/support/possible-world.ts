import { earliestOf, latestOf } from '@bakehouse/kernel';
import { allPutOn, type TraceFlow, type TraceGraph, type TraceLot } from '@bakehouse/graph';

/** What a lot was in one world: its mass, and how much of that was the suspect. `weighs`: what its pieces weighed after the oven. */
export interface Content {
  readonly mass: number;
  readonly suspect: number;
}
interface Baked extends Content {
  readonly weighs: number;
  /** The same as though all pieces were as those that left then: with what had been put on by then, which those that were there shared. */
  readonly then?: (at: string) => Baked;
  /** Of pieces that were only counted out by then: with any part of what was put on later. */
  readonly counted?: (at: string, pieces: number) => Baked;
}
interface Line {
  mass: number;
  readonly source: string;
  readonly open: boolean;
  readonly share: number;
  readonly most: number;
  /** Which part of all pieces it is, where it is of pieces. */
  readonly part: number;
  readonly at: string;
  /** By the record, whenever it was. */
  readonly written: string;
  /** It was put on pieces that were there. */
  readonly putOn: boolean;
  /** What it was before the oven took water from it, for so much of its mass. */
  readonly full: number;
  /** How much of its lot it takes, for so much of its mass: baked pieces take what they were scaled at. */
  readonly takes: number;
  /** By the records there was not enough of its lot: then one of the figures is wrong, and it may be anything. */
  readonly free: boolean;
}

/** An amount nobody bounds may be as small as a trace, or far more than all the rest. */
const amounts = [1e-6, 1, 300, 1e9] as const;

/**
 * Draws worlds that fit the records, by chance: every doubt is settled one way or another. It is written from what the records mean, not from how
 * the bounds are worked out. Suspect is `S`. What nobody recorded may be the suspect only in a lot that the records lead to. Null where what was
 * drawn does not fit: more was taken from a lot than there was of it.
 */
export function worldsOf(graph: TraceGraph, reached: ReadonlySet<string>, random: () => number): () => ReadonlyMap<string, Content> | null {
  const made = [...graph.lots.values()].flatMap((lot) => {
    const groups = groupsOf(graph, lot.id);
    const isBefore = (g: Group): boolean => lot.outAt === null || g.flows.every((f) => f.at <= (lot.outAt ?? f.at));
    return groups.length === 0 ? [] : [{ lot, before: groups.filter(isBefore), after: groups.filter((g) => !isBefore(g)) }];
  });
  return () => {
    const world = new Map<string, Baked>();
    const taken: Line[] = [];
    for (const { lot, before, after } of made) {
      const lines = (groups: readonly Group[]): Line[] => groups.flatMap((g) => linesOf(g, world, graph.lots, random));
      const [first, later] = [lines(before), lines(after)];
      const out = lot.outMg === null ? together(first) : whatCameOut(first, { out: lot.outMg, lot, may: reached.has(lot.id) }, random);
      if (out === null) return null;
      const all = { mass: out.mass + together(later).mass, suspect: out.suspect + together(later).suspect };
      const dried = lot.type === 'batch' && lot.outMg === null ? drying(random) : 1;
      const then = isPieces(lot) && lot.outMg === null ? leaving(lot, [...first, ...later], dried, { graph, random }) : {};
      world.set(lot.id, { ...all, weighs: driedTo(all, dried), ...then });
      taken.push(...first, ...later);
    }
    return [...graph.lots.values()].every((lot) => wasThere(lot, taken, world, graph)) ? world : null;
  };
}

/** Which part of what is not the suspect stayed in the oven: all of it, hardly any, or some. */
function drying(random: () => number): number {
  const dried = random();
  return dried < 0.3 ? 1 : dried < 0.5 ? 1e-9 : random();
}
const driedTo = ({ mass, suspect }: Content, stays: number): number => suspect + (mass - suspect) * stays;

/** What pieces held by when they left: the times are as written, or what was put on is on all of them, whenever they left. */
function leaving(
  lot: TraceLot,
  lines: readonly Line[],
  stays: number,
  { graph, random }: { readonly graph: TraceGraph; readonly random: () => number },
): Pick<Baked, 'then' | 'counted'> {
  const asWritten = random() < 0.7;
  const all = lot.pieces ?? 0;
  const share = (l: Line): number => {
    const gone = lot.putOn.find((on) => on.at === l.written)?.gone ?? 0;
    // More pieces may have left than there were: what was put on is no more for that.
    const took = graph.flows.filter((f) => f.source === lot.id && latestOf(f) > l.at).map((f) => f.pieces ?? 0);
    return asWritten && l.putOn && gone < all ? all / Math.min(all, Math.max(all - gone, ...took)) : 1;
  };
  const asThough = (of: readonly Line[]): Baked => {
    const content = together(of);
    return { ...content, weighs: driedTo(content, stays) };
  };
  const hadBy = (at: string): Line[] =>
    lines.filter((l) => !l.putOn || !asWritten || l.at < at).map((l) => ({ ...l, mass: l.mass * share(l) }));
  return {
    then: (at) => asThough(hadBy(at)),
    counted: (at, pieces) => {
      const part = random() < 0.5 ? Math.round(random()) : random();
      const later = lines.filter((l) => l.putOn && asWritten && l.at >= at);
      return asThough([...hadBy(at), ...later.map((l) => ({ ...l, mass: (l.mass * part * all) / pieces }))]);
    },
  };
}

interface Group {
  readonly flows: readonly (TraceFlow & { readonly mass: number | null; readonly most: number })[];
  /** All that its lots had is less than went of them. */
  readonly short: boolean;
}

function groupsOf(graph: TraceGraph, target: string): Group[] {
  const into = graph.flows.filter((f) => f.target === target).map((f) => ({ ...f, mass: scaledOf(f, graph.lots), most: maxOf(f, graph) }));
  return [...new Set(into.map((f) => f.anyOf ?? f.id))].map((g) => {
    const flows = into.filter((f) => (f.anyOf ?? f.id) === g);
    const [mass, ...others] = flows.map((f) => f.mass);
    const one = mass !== null && mass !== undefined && others.every((m) => m === mass);
    return { flows, short: flows.length > 1 && (!one || flows.reduce((n, f) => n + Math.min(f.most, mass), 0) < mass) };
  });
}

const together = (lines: readonly Line[]): Content => ({
  mass: lines.reduce((sum, l) => sum + l.mass, 0),
  suspect: lines.reduce((sum, l) => sum + l.mass * l.share, 0),
});

function linesOf({ flows, short }: Group, world: ReadonlyMap<string, Baked>, lots: TraceGraph['lots'], random: () => number): Line[] {
  if (flows.length === 1 && flows[0]?.certain === false && random() < 0.5) return [];
  const parts = split(short ? flows.map(() => 1) : flows.map((f) => (f.mass === null ? 1 : f.most / f.mass)), random);
  // One amount of which one lot has no figure has none: it is what came of it in the end.
  const open = flows.some((f) => f.mass === null);
  return flows.map((f, i): Line => {
    const { source, mg, pieces, type, mass, most, at: written, putOn = false } = f;
    const at = [earliestOf(f), written, latestOf(f)][Math.floor(random() * 3)] ?? written;
    const lot = lots.get(source);
    const whole = world.get(source);
    const content = (type === 'batched' ? whole?.counted?.(at, pieces ?? 1) : whole?.then?.(at)) ?? whole;
    const weighs = content?.weighs ?? 0;
    // Each piece of a lot weighs the same, with what was put on it and without what left it.
    const counted = lot !== undefined && content !== undefined && pieces !== null && (mg === null || type === 'batched');
    const dried = counted && isPieces(lot) ? weighs / scaledTotal(lot) : 1;
    const chosen = mass ?? Math.min(most, random() < 0.3 ? most : (amounts[Math.floor(random() * amounts.length)] ?? 1));
    const share = source === 'S' ? 1 : !content || weighs === 0 ? 0 : content.suspect / weighs;
    const limit = mass ?? most;
    const own = { source, share, open, most: limit * dried, takes: 1 / dried, free: short, at, written, putOn };
    const full = counted && weighs > 0 ? content.mass / weighs : 1;
    const taken = Math.min(chosen, 1e9) * (parts[i] ?? 0) * dried;
    return { ...own, full, mass: taken, part: weighs === 0 ? 0 : taken / weighs };
  });
}

/** All from one of them, mostly; from several in some worlds. No more of one than its end; the rest comes of the others. */
function split(ends: readonly number[], random: () => number): number[] {
  const order = ends.map((_, i) => i).sort(() => random() - 0.5);
  const spread = random() < 0.3;
  const parts = ends.map(() => 0);
  let left = 1;
  for (const fair of spread ? [true, false] : [false]) {
    for (const i of order) {
      const more = Math.min((ends[i] ?? 0) - (parts[i] ?? 0), fair ? left * random() : left);
      parts[i] = (parts[i] ?? 0) + more;
      left -= more;
    }
  }
  return parts;
}

const isPieces = (lot: TraceLot): boolean => lot.type === 'run' || lot.type === 'batch';
/** What all pieces of a lot were worked out to weigh, before anything was put on them. */
const scaledTotal = (lot: TraceLot): number => lot.outMg ?? (lot.pieces ?? 0) * (lot.pieceMg ?? 0);

function scaledOf(f: TraceFlow, lots: TraceGraph['lots']): number | null {
  const lot = lots.get(f.source);
  if ((f.mg !== null && f.type !== 'batched') || f.pieces === null || !lot) return f.mg;
  if (isPieces(lot)) return (f.pieces * scaledTotal(lot)) / (lot.pieces ?? 1);
  return lot.pieceMg === null ? null : f.pieces * lot.pieceMg;
}
/** The same with what surely was put on them. */
function surelyOf(f: TraceFlow, lots: TraceGraph['lots']): number | null {
  const [scaled, lot] = [scaledOf(f, lots), lots.get(f.source)];
  if (scaled === null || !lot || !isPieces(lot) || lot.outMg !== null || f.pieces === null) return scaled;
  return scaled + (allPutOn(lot.putOn.filter((on) => latestOf(on) < earliestOf(f))).minMg * f.pieces) / (lot.pieces ?? 1);
}

/** What may be in lots of all that there was: not what was sent out, nor what was there at the last count, unless it went after that. */
function forUse(lot: TraceLot | undefined, at: string): number {
  const on = allPutOn(lot?.putOn ?? []).maxMg;
  if (lot === undefined || (lot.mg === null && lot.outMg === null) || on === null) return Infinity;
  if (lot.leftAt !== null && at > lot.leftAt) return lot.leftMg ?? 0;
  return Math.max(lot.mg ?? 0, lot.outMg ?? 0) + on - lot.awayMg - (lot.leftMg ?? 0);
}

const sameSide = (lot: TraceLot | undefined, a: string, b: string): boolean => !lot?.leftAt || a > lot.leftAt === b > lot.leftAt;

/** No more than there was of its lot and not surely elsewhere, unless the records have more of it gone than that anyway. */
function maxOf(f: TraceFlow, { flows, lots }: TraceGraph): number {
  const lot = lots.get(f.source);
  const others = flows.filter((g) => g.source === f.source && g.certain && sameSide(lot, g.at, f.at));
  const gone = others.reduce((sum, g) => sum + (surelyOf(g, lots) ?? 0), 0);
  const room = forUse(lot, f.at) - gone;
  return room < 0 ? Infinity : room + (f.certain ? (surelyOf(f, lots) ?? 0) : 0);
}

/** All that was taken of a lot was there; and of baked pieces, all that was weighed after the oven. */
function wasThere(lot: TraceLot, lines: readonly Line[], world: ReadonlyMap<string, Baked>, { flows, lots }: TraceGraph): boolean {
  const of = lines.filter((l) => l.source === lot.id && !l.free);
  for (const at of new Set(flows.filter((f) => f.source === lot.id).map((f) => f.at))) {
    const sure = flows.filter((f) => f.source === lot.id && f.certain && sameSide(lot, f.at, at));
    if (sure.reduce((sum, f) => sum + (surelyOf(f, lots) ?? 0), 0) > forUse(lot, at)) return true;
  }
  const there = forUse(lot, flows.find((f) => f.source === lot.id)?.at ?? lot.at);
  const weighs = world.get(lot.id)?.weighs ?? 0;
  // Nothing comes of a lot that came to nothing.
  if (world.has(lot.id) && weighs === 0 && of.some((l) => l.mass > 0)) return false;
  if (!isPieces(lot)) return of.reduce((sum, l) => sum + l.mass * l.takes, 0) <= there * (1 + 1e-9) + 1e-6;
  return of.reduce((sum, l) => sum + l.part, 0) <= 1 + 1e-9;
}

/**
 * Unweighed lines fill what is missing; what nothing fills is anything, but only where the full weight of pieces does not fill it: null where a world
 * dried them further than that. What is too much was lost: first its water,
 * then anything.
 */
function whatCameOut(
  lines: readonly Line[],
  of: { readonly out: number; readonly lot: TraceLot; readonly may: boolean },
  random: () => number,
): Content | null {
  const { out, lot, may } = of;
  const known = lines.filter((l) => !l.open);
  const open = lines.filter((l) => l.open).sort(() => random() - 0.5);
  const sure = together(known);
  if (sure.mass <= out) {
    let missing = out - sure.mass;
    for (const l of open) {
      l.mass = Math.min(missing, l.most);
      missing -= l.mass;
    }
    if (missing > 1e-6 && lines.reduce((sum, l) => sum + (l.open ? l.most : l.mass * l.full), 0) >= out) return null;
    return { mass: out, suspect: sure.suspect + together(open).suspect + (may ? missing * Math.round(random()) : 0) };
  }
  let room = out;
  for (const l of open) {
    l.mass = Math.min(room, l.most, l.mass);
    room -= l.mass;
  }
  const all = together(lines);
  const lost = Math.max(0, all.mass - out - (lot.type === 'batch' ? all.mass - out : (lot.evaporatedMg ?? 0)));
  const most = Math.min(all.suspect, out);
  const least = Math.min(most, Math.max(0, all.suspect - lost));
  const taken = random();
  return { mass: out, suspect: taken < 0.4 ? least : taken < 0.8 ? most : least + (most - least) * random() };
}
