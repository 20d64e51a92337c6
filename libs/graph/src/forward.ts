import { byEnd, type TraceFlow, type TraceGraph, type TraceLot } from './graph.js';
import { sharesOnCircle } from './circle.js';
import { inOrder } from './components.js';
import { drawnEvenly, type Share, type Sources } from './parts.js';
import { allPutOn } from './put-on.js';
import { roomIn, surelyTakenIn, type Room } from './rooms.js';
import { shareIn } from './share-in.js';
import { whole, type Held } from './share.js';

export interface Reached {
  readonly lot: string;
  /** At least and at most this share of the lot is the suspect, by mass; null where no share can be said. */
  readonly min: bigint | null;
  readonly max: bigint | null;
  /** Milligrams of the suspect in it, at least and at most; null where it cannot be said, or where nothing bounds it. */
  readonly minMg: number | null;
  readonly maxMg: number | null;
  /** Links from the nearest suspect, 0 for a suspect itself. */
  readonly steps: number;
  /** The link by which it was first reached; null for a suspect. */
  readonly by: TraceFlow | null;
}

/**
 * Everything that holds the suspects, however indirectly, with the share of it that is theirs: bounds that hold in every world that fits the
 * records, not estimates. Linear in lots and flows but for sorting what goes into one lot, and for circles.
 *
 * - A share is of what came out, where that was weighed, else of what went in. Pieces count by what one of them was scaled at with its part of what
 *   was put on all of them; once baked they weigh less by water, which carries none of the suspect, and nobody knows by how much.
 * - A line that nobody weighed may be nothing, or all that there was of its lot. *At most* survives it where it holds none of the suspect; *at
 *   least* survives it where it holds some, where its lot had only so much, or where the total was weighed.
 * - What went as one of several lots is of each at least what the others did not have, and at most what it had itself.
 * - Lots on a circle gave along any mixture of what had come into them by then, and no more of the suspect than ever came into the circle.
 * - Whether a lot surely holds some is not decided here: `surelyReached` in records does, for standing as well.
 * - No share is said where only a contact leads there (a contact has no mass), and where amounts are missing, or lots form a circle, and the bounds
 *   would be nothing and all.
 */
export function traceForward(graph: TraceGraph, suspects: readonly string[]): ReadonlyMap<string, Reached> {
  const out = byEnd(graph.flows, 'source');
  const into = byEnd(graph.flows, 'target');
  const steps = reach(out, suspects, () => true);
  const room = roomIn(graph.lots, out);
  const shares = sharesIn(graph, out, into, suspects, room);
  const reached = new Map<string, Reached>();
  for (const [lot, { steps: n, by }] of steps) {
    const share = shares.get(lot);
    const [min, max] = share?.said === true ? share.bounds : [null, null];
    const [minMg, maxMg] = (share?.held ?? [null, null]).map((mg) => (mg === null ? null : Number(mg)));
    reached.set(lot, { lot, min, max, minMg: minMg ?? null, maxMg: maxMg ?? null, steps: n, by });
  }
  return reached;
}

/** The share of every lot that the suspect went into with some mass. */
function sharesIn(
  { flows, lots }: TraceGraph,
  out: ReadonlyMap<string, readonly TraceFlow[]>,
  into: ReadonlyMap<string, readonly TraceFlow[]>,
  suspects: readonly string[],
  room: Room,
): ReadonlyMap<string, Share> {
  const shares = new Map<string, Share>(suspects.map((lot) => [lot, allOf(lots.get(lot))]));
  const from: Sources = { lots, takenOf: surelyTakenIn(out), room, shareOf: (lot) => shares.get(lot) ?? noneOfIt };
  const held = reach(out, suspects, (f) => f.type !== 'contact');
  const links = flows.filter((f) => f.type !== 'contact' && held.has(f.source) && held.has(f.target) && !shares.has(f.target));
  const ofMass = new Map([...into].map(([lot, all]) => [lot, all.filter((f) => f.type !== 'contact')]));
  for (const lots of inOrder([...held.keys()], byEnd(links, 'source'))) {
    const [lot] = lots.members;
    if (lots.circle) for (const [one, share] of sharesOnCircle(lots.members, ofMass, from)) shares.set(one, share);
    else if (lot !== undefined && !shares.has(lot)) shares.set(lot, shareIn(from.lots.get(lot), ofMass.get(lot) ?? [], from));
  }
  return shares;
}

const noneOfIt: Share = { bounds: [0n, 0n], said: true, held: [0n, 0n], drawn: drawnEvenly([0n, 0n]) };
function allOf(lot: TraceLot | undefined): Share {
  const mg = lot?.outMg ?? lot?.mg ?? null;
  const on = allPutOn(lot === undefined || lot.outMg !== null ? [] : lot.putOn);
  const most = mg === null || on.maxMg === null ? null : BigInt(mg + on.maxMg);
  const held: Held | null = mg === null ? null : [BigInt(mg + on.minMg), most];
  return { bounds: [whole, whole], said: true, held, drawn: drawnEvenly([whole, whole]) };
}

type Steps = ReadonlyMap<string, { readonly steps: number; readonly by: TraceFlow | null }>;

function reach(out: ReadonlyMap<string, readonly TraceFlow[]>, from: readonly string[], follow: (f: TraceFlow) => boolean): Steps {
  const seen = new Map<string, { steps: number; by: TraceFlow | null }>(from.map((lot) => [lot, { steps: 0, by: null }]));
  const queue = [...seen.keys()];
  for (let i = 0; i < queue.length; i += 1) {
    const lot = queue[i] ?? '';
    for (const f of out.get(lot) ?? []) {
      if (seen.has(f.target) || !follow(f)) continue;
      seen.set(f.target, { steps: (seen.get(lot)?.steps ?? 0) + 1, by: f });
      queue.push(f.target);
    }
  }
  return seen;
}
