import type { TraceFlow, TraceGraph, TraceLot } from '@bakehouse/graph';

/** What a lot was in one world: its mass, and how much of that was the suspect. */
export interface Content {
  readonly mass: number;
  readonly suspect: number;
}
interface Line {
  mass: number;
  readonly open: boolean;
  readonly share: number;
  readonly most: number;
}

/** An amount nobody bounds may be as small as a trace, or far more than all the rest. */
const amounts = [1e-6, 1, 300, 1e9] as const;

/**
 * Draws worlds that fit the records, by chance: every doubt is settled one way or another. It is written from what the records mean, not from how
 * the bounds are worked out. Suspect is `S`. What nobody recorded may be the suspect only in a lot that the records lead to.
 */
export function worldsOf(graph: TraceGraph, reached: ReadonlySet<string>, random: () => number): () => ReadonlyMap<string, Content> {
  const made = [...graph.lots.values()].flatMap((lot) => {
    const groups = groupsOf(graph, lot.id);
    const isBefore = (g: Group): boolean => lot.outAt === null || g.flows.every((f) => f.at <= (lot.outAt ?? f.at));
    return groups.length === 0 ? [] : [{ lot, before: groups.filter(isBefore), after: groups.filter((g) => !isBefore(g)) }];
  });
  return () => {
    const world = new Map<string, Content>();
    const shareOf = (lot: string): number => {
      const c = world.get(lot);
      return lot === 'S' ? 1 : c === undefined || c.mass === 0 ? 0 : c.suspect / c.mass;
    };
    for (const { lot, before, after } of made) {
      const lines = (groups: readonly Group[]): Line[] => groups.flatMap((g) => linesOf(g, shareOf, random));
      const [first, later] = [lines(before), together(lines(after))];
      const out = lot.outMg === null ? together(first) : whatCameOut(first, { out: lot.outMg, lot, may: reached.has(lot.id) }, random);
      world.set(lot.id, { mass: out.mass + later.mass, suspect: out.suspect + later.suspect });
    }
    return world;
  };
}

interface Group {
  readonly flows: readonly (TraceFlow & { readonly mass: number | null; readonly most: number })[];
}

function groupsOf(graph: TraceGraph, target: string): Group[] {
  const into = graph.flows.filter((f) => f.target === target).map((f) => ({ ...f, mass: massOf(f, graph.lots), most: maxOf(f, graph) }));
  return [...new Set(into.map((f) => f.anyOf ?? f.id))].map((g) => ({ flows: into.filter((f) => (f.anyOf ?? f.id) === g) }));
}

const together = (lines: readonly Line[]): Content => ({
  mass: lines.reduce((sum, l) => sum + l.mass, 0),
  suspect: lines.reduce((sum, l) => sum + l.mass * l.share, 0),
});

function linesOf({ flows }: Group, shareOf: (lot: string) => number, random: () => number): Line[] {
  if (flows.length === 1 && flows[0]?.certain === false && random() < 0.5) return [];
  const parts = split(flows.length, random);
  return flows.map(({ source, mass, most }, i): Line => {
    const chosen = mass ?? Math.min(most, random() < 0.3 ? most : (amounts[Math.floor(random() * amounts.length)] ?? 1));
    return { mass: Math.min(chosen, 1e9) * (parts[i] ?? 0), open: mass === null, share: shareOf(source), most: mass ?? most };
  });
}

/** All from one of them, mostly; from several in some worlds. */
function split(n: number, random: () => number): number[] {
  if (random() < 0.8) {
    const one = Math.floor(random() * n);
    return Array.from({ length: n }, (_, i) => (i === one ? 1 : 0));
  }
  const cuts = Array.from({ length: n }, () => random());
  const sum = cuts.reduce((a, b) => a + b, 0);
  return cuts.map((c) => c / sum);
}

function massOf(f: TraceFlow, lots: TraceGraph['lots']): number | null {
  const pieceMg = lots.get(f.source)?.pieceMg ?? null;
  return f.mg ?? (f.pieces !== null && pieceMg !== null ? f.pieces * pieceMg : null);
}

/** No more than there was of its lot, unless the records have more of it gone than that anyway. */
function maxOf(f: TraceFlow, { flows, lots }: TraceGraph): number {
  const lot = lots.get(f.source);
  const there = lot === undefined || (lot.mg === null && lot.outMg === null) ? Infinity : Math.max(lot.mg ?? 0, lot.outMg ?? 0);
  const gone = flows.filter((g) => g.source === f.source && g.certain).reduce((sum, g) => sum + (massOf(g, lots) ?? 0), 0);
  return gone > there ? Infinity : there;
}

/** Unweighed lines fill what is missing; what nothing fills is anything. What is too much was lost: first its water, then anything. */
function whatCameOut(
  lines: readonly Line[],
  of: { readonly out: number; readonly lot: TraceLot; readonly may: boolean },
  random: () => number,
): Content {
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
    return { mass: out, suspect: sure.suspect + together(open).suspect + (may ? missing * Math.round(random()) : 0) };
  }
  let room = out;
  for (const l of open) {
    l.mass = Math.min(room, l.most, l.mass);
    room -= l.mass;
  }
  const all = together(lines);
  const lost = Math.max(0, all.mass - out - (lot.evaporatedMg ?? 0));
  const most = Math.min(all.suspect, out);
  const least = Math.min(most, Math.max(0, all.suspect - lost));
  const taken = random();
  return { mass: out, suspect: taken < 0.4 ? least : taken < 0.8 ? most : least + (most - least) * random() };
}
