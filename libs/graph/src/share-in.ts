import { earliestOf } from '@bakehouse/kernel';
import type { TraceFlow, TraceLot } from './graph.js';
import { drawnEvenly, partsOf, type PartAs, type Parts, type Share, type Sources } from './parts.js';
import { partThen, putOnSince, timesPutOn } from './put-on.js';
import { byHeld, heldIn, higher, lower, shareOfAll, shareOfOut, whole, type Bounds, type Part } from './share.js';

/** The share of a lot, and where something was put on its pieces, of what left it by each time. */
export function shareIn(lot: TraceLot | undefined, flows: readonly TraceFlow[], from: Sources): Share {
  const share = shareOfFlows(lot, flows, from);
  const times = timesPutOn(lot, flows);
  if (lot === undefined || times.length === 0) return share;
  const then = [...times, null].flatMap((by) => {
    const later = by === null ? [] : putOnSince(flows, by);
    // What surely left before any of it was put on.
    const before = later.map(earliestOf).sort()[0] ?? null;
    const most = by === null ? 0n : heldIn(partsOf(later, from, false).parts)[1];
    return (by === null ? [false] : [false, true]).map((inDoubt) => ({
      ...{ by, before, inDoubt, later: most },
      share: shareOfFlows(lot, flows, from, (part, [f]) => (f ? partThen(part, f, lot, { by, inDoubt }) : part)),
    }));
  });
  return { ...share, then };
}

/** What went in before it was weighed out is one part of so much; what went in or on afterwards comes on top. */
function shareOfFlows(lot: TraceLot | undefined, flows: readonly TraceFlow[], from: Sources, as?: PartAs): Share {
  const parts = (some: readonly TraceFlow[], byCount = false): Parts => partsOf(some, from, byCount, as);
  const { outMg, outAt } = lot ?? { outMg: null, outAt: null };
  if (!outMg || outAt === null) {
    const { parts: all, doubt, counted } = parts(flows, true);
    return counted
      ? { ...said(shareOfAll(all), doubt), held: null }
      : { ...said(within(shareOfAll(all), byHeld(all)), doubt), held: heldIn(all) };
  }
  const [before, after] = [parts(flows.filter((f) => f.at <= outAt)), parts(flows.filter((f) => f.at > outAt))];
  const mg = BigInt(outMg);
  // What pieces lose in the oven is water.
  const evaporated = lot?.type === 'batch' ? 'all' : BigInt(lot?.evaporatedMg ?? 0);
  const out = shareOfOut(before.parts, { mg, evaporated });
  const weighedOut: Part = {
    weighed: true,
    sure: true,
    dries: false,
    held: null,
    least: mg,
    most: mg,
    min: out.bounds[0],
    max: out.bounds[1],
  };
  const [least, most] = heldIn(after.parts);
  const held = [out.held[0] + least, most === null ? null : out.held[1] + most] as const;
  return { ...said(shareOfAll([weighedOut, ...after.parts]), before.doubt || after.doubt), held };
}

const within = ([least, most]: Bounds, [min, max]: Bounds): Bounds => [higher(least, min), lower(most, max)];

/** Between nothing and all, for want of an amount, says nothing. */
const said = (bounds: Bounds, doubt: boolean): Omit<Share, 'held'> => ({
  bounds,
  said: !(doubt && bounds[0] === 0n && bounds[1] === whole),
  drawn: drawnEvenly(bounds),
});
