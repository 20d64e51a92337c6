import { earliestOf, latestOf } from '@bakehouse/kernel';
import { intakesOf, isBakedUnweighed, type TraceFlow, type TraceGraph, type TraceLot } from './graph.js';
import type { By } from './put-on.js';
import { countedMass, isCounted, isCountedOut, massOf, roomsOf, type Room, type Taken } from './rooms.js';
import { ceiling, fill, higher, highest, lower, lowest, whole, type Bounds, type Held, type Mass, type Part } from './share.js';

/** What is known of any amount that is taken from a lot, at any moment. */
export interface Drawn {
  readonly bounds: Bounds;
  /** Milligrams of the suspect, and of what is not it, that an amount can hold at most; null where nothing bounds it but the amount itself. */
  readonly suspect: bigint | null;
  readonly clean: bigint | null;
}
/** The share of a source: its bounds, and whether they say anything. */
export interface Share {
  readonly bounds: Bounds;
  readonly said: boolean;
  /** Milligrams of the suspect; null where nothing went in by mass. */
  readonly held: Held | null;
  readonly drawn: Drawn;
  /** Where something was put on pieces: the share of those that left by each time, and of those that left after the last. */
  readonly then?: readonly ShareThen[];
}
interface ShareThen extends By {
  /** What left by then surely left before anything of that was put on; what may have left later is `inDoubt`. */
  readonly before: string | null;
  readonly share: Share;
  /** How much of the suspect was put on later at most: what was only counted out by then may have all of it. Null where nothing bounds it. */
  readonly later: bigint | null;
}
/** What is known of those pieces that left when this flow did, where something was put on pieces of its source. */
const thenOf = ({ shareOf }: Sources, f: TraceFlow): ShareThen | undefined =>
  shareOf(f.source).then?.find(
    ({ by, before, inDoubt }) => by === null || (earliestOf(f) <= by && inDoubt === (before !== null && latestOf(f) > before)),
  );
/** The share of what this flow took. */
const shareThen = (from: Sources, f: TraceFlow): Share => thenOf(from, f)?.share ?? from.shareOf(f.source);
/** What was put on later is perhaps on pieces that had only been counted out: all of it, or none. */
const laterOn = (from: Sources, f: TraceFlow): bigint | null => {
  const then = isCountedOut(f) ? thenOf(from, f) : undefined;
  return then === undefined ? 0n : then.later;
};
export const drawnEvenly = (bounds: Bounds): Drawn => ({ bounds, suspect: null, clean: null });

/** What the parts of a lot are worked out from. */
export interface Sources {
  readonly lots: TraceGraph['lots'];
  readonly takenOf: (lot: TraceLot) => Taken;
  readonly room: Room;
  readonly shareOf: (lot: string) => Share;
}

interface Intake {
  readonly flows: readonly TraceFlow[];
  readonly masses: readonly (Mass | null)[];
}

/** What went into one lot. In doubt where amounts that matter are missing, or where one of its sources has no share that can be said. */
export interface Parts {
  readonly parts: readonly Part[];
  readonly doubt: boolean;
  /** The amounts are pieces, not milligrams. */
  readonly counted: boolean;
}

/** A part of these flows as it is to be counted. */
export type PartAs = (part: Part, of: readonly TraceFlow[]) => Part;

/** What went into one lot, as parts of it. Pieces are added (`byCount`) only where all of it is pieces of one material. */
export function partsOf(flows: readonly TraceFlow[], from: Sources, byCount: boolean, as: PartAs = (part) => part): Parts {
  const { lots } = from;
  const taken = intakesOf(flows).map((group): Intake => ({ flows: group, masses: group.map((f) => massOf(f, lots.get(f.source))) }));
  const counted = byCount && taken.every((t) => t.masses.every((m) => m === null)) && ofOneMaterial(flows, lots);
  const all = counted
    ? taken.map((t) => ({
        ...t,
        masses: t.flows.map(({ pieces }) => (pieces === null ? null : { least: BigInt(pieces), most: BigInt(pieces) })),
      }))
    : taken;
  const surely = all.some((t) => t.flows.length > 1 || t.flows[0]?.certain === true);
  return {
    parts: all.map((t) => as(partOf(t, surely, from), t.flows)),
    counted,
    doubt: (all.length > 1 && all.some((t) => t.masses.includes(null))) || all.some((t) => t.flows.some((f) => !shareThen(from, f).said)),
  };
}

const ofOneMaterial = (flows: readonly TraceFlow[], lots: TraceGraph['lots']): boolean =>
  flows.every((f) => f.pieces !== null && lots.has(f.source)) && new Set(flows.map((f) => lots.get(f.source)?.material)).size === 1;

/** Something surely went in, or the one line that may have is all there is: then what it holds is not certain either. */
function partOf(taken: Intake, surely: boolean, from: Sources): Part {
  const { flows, masses } = taken;
  const possible = flows.length === 1 && flows[0]?.certain === false;
  const known = masses.filter((m) => m !== null);
  const weighed = known.length === masses.length;
  const [min, max] = sharesOf(taken, from);
  return {
    weighed,
    sure: !possible,
    dries: flows.some((f) => isCounted(f) && isBakedUnweighed(from.lots.get(f.source))),
    least: possible || !weighed ? 0n : lowest(known.map((m) => m.least)),
    most: weighed ? atMost(known) : together(flows.map((f, i) => masses[i]?.most ?? from.room(f))),
    held: heldBy(taken, surely && !possible, from),
    min: surely ? min : 0n,
    max,
  };
}

/** The share of one line, or of one amount of several lots: no lot can have given more of it than there was. */
function sharesOf({ flows, masses }: Intake, from: Sources): Bounds {
  // What one lot can give in all bounds the whole of an amount, not the part of it that may have come from there.
  const shares = flows.map((f, i) => lineShare(f, flows.length === 1 ? (masses[i]?.least ?? null) : null, from));
  const shared = flows.length === 1 ? null : roomsOf(flows, masses, from.room);
  if (shared === null || shared.amount === 0n) return [lowest(shares.map((s) => s[0])), highest(shares.map((s) => s[1]))];
  const { amount, rooms } = shared;
  const members = shares.map(([min, max], i) => ({ min, max, most: rooms[i] ?? amount }));
  return [
    fill(members, amount, (m) => m.min, 1) / amount,
    ceiling(
      fill(members, amount, (m) => m.max, -1),
      amount,
    ),
  ];
}

const atMost = (masses: readonly Mass[]): bigint | null =>
  masses.reduce<bigint | null>((most, m) => (most === null || m.most === null ? null : higher(most, m.most)), 0n);

/** Pieces take along their part of what all the pieces hold, whatever was put on them. */
function heldBy({ flows }: Intake, surely: boolean, from: Sources): Held | null {
  const [f] = flows;
  const held = f && flows.length === 1 && isCounted(f) ? shareThen(from, f).held : null;
  const all = f && from.lots.get(f.source)?.pieces;
  if (!f || held === null || !all) return null;
  const [pieces, of] = [BigInt(f.pieces ?? 0), BigInt(all)];
  const later = laterOn(from, f);
  return [surely ? (held[0] * pieces) / of : 0n, held[1] === null || later === null ? null : ceiling(held[1] * pieces, of) + later];
}

function lineShare(f: TraceFlow, mass: bigint | null, from: Sources): Bounds {
  const { lots, takenOf } = from;
  // What was put on later may be all on these, or none: then how much they hold says more than a share.
  if (isCountedOut(f) && (thenOf(from, f)?.by ?? null) !== null) return [0n, whole];
  const { drawn, held } = shareThen(from, f);
  const lot = lots.get(f.source);
  const [least, most] = drawn.bounds;
  const dried = !isCounted(f) && isBakedUnweighed(lot) ? driedShare(mass ?? 0n, lot, held, takenOf(lot)) : most;
  if (mass === null || mass === 0n) return [least, higher(dried, most)];
  return [
    drawn.clean === null ? least : higher(least, whole - ceiling(lower(drawn.clean * whole, mass * whole), mass)),
    drawn.suspect === null ? higher(dried, most) : lower(higher(dried, most), ceiling(drawn.suspect * whole, mass)),
  ];
}

/**
 * At most so much of what was weighed of baked pieces is the suspect: water left them in the oven and took none of it. All that was weighed of them
 * comes from the pieces that did not go elsewhere whole, and holds no more than those did.
 */
function driedShare(mass: bigint, lot: TraceLot, held: Held | null, taken: Taken): bigint {
  const [pieces, most] = [BigInt(lot.pieces ?? 0), held?.[1] ?? null];
  if (most === 0n) return 0n;
  if (pieces === 0n || most === null) return whole;
  const [weighed, rest] = [higher(taken.weighed, mass), pieces - taken.counted];
  const heaviest = countedMass(rest, lot, null)?.most ?? weighed;
  return weighed === 0n || rest <= 0n || heaviest < weighed ? whole : lower(whole, ceiling(most * rest * whole, pieces * weighed));
}

const together = (rooms: readonly (bigint | null)[]): bigint | null =>
  rooms.reduce<bigint | null>((all, room) => (all === null || room === null ? null : all + room), 0n);
