import { grouped } from '@bakehouse/kernel';

/** Oil, wash, seeds or glaze that was put on the pieces of a lot, or on all those that they were counted out of. */
export interface PutOn {
  readonly at: string;
  /** Between when it may have been, where its instant is not known exactly. */
  readonly earliest?: string | null;
  readonly latest?: string | null;
  /** What of it is on them, in milligrams: at least, and at most; null where nobody weighed it. */
  readonly minMg: number;
  readonly maxMg: number | null;
  /** How many of them had left by then, by the records, or may have; null where that is not known. What was put on is on the others. */
  readonly gone: number | null;
}
/** One lot of a trace, with what a reader needs to recognise it and what its share is worked out from. */
export interface TraceLot {
  readonly id: string;
  readonly name: string;
  readonly type: string;
  /** It stands for one that nobody could name when it was used: nothing of its own came. */
  readonly unnamed?: boolean;
  readonly code: string | null;
  readonly book: string;
  readonly material: string;
  /** What was received, or all that went in; null where one line of it has no weight. */
  readonly mg: number | null;
  readonly pieces: number | null;
  /** What one piece of it weighs, by its scaling weight; null where nobody said. */
  readonly pieceMg: number | null;
  /** What was put on its pieces since they were scaled. */
  readonly putOn: readonly PutOn[];
  /** What came out of it and when that was weighed: after drying, boiling, baking. */
  readonly outMg: number | null;
  readonly outAt: string | null;
  /** How much less came out than went in before it was weighed; null where either is not known. */
  readonly lostMg: number | null;
  /** How much of what was lost is known to have been water, which carries none of the suspect. */
  readonly evaporatedMg: number | null;
  /** How much of it surely left the house or was thrown away, less what came back; up to its last count where there was one. */
  readonly awayMg: number;
  /** What was there when it was last counted, and when; null where nobody counted it, or some came in since. */
  readonly leftMg: number | null;
  readonly leftAt: string | null;
  readonly at: string;
}

/** So much of one lot went into another; `contact` is shared equipment before the next clean-down: no amount, only a possibility. */
export interface TraceFlow {
  readonly id: string;
  readonly source: string;
  readonly target: string;
  readonly mg: number | null;
  readonly pieces: number | null;
  readonly how: string;
  readonly type: string;
  readonly certain: boolean;
  readonly anyOf: string | null;
  readonly at: string;
  /** Between when it may have happened, where its instant is not known exactly. */
  readonly earliest?: string | null;
  readonly latest?: string | null;
  /** It was put on pieces that were there already: those that had left by then do not have it. */
  readonly putOn?: boolean;
}

export interface TraceGraph {
  readonly lots: ReadonlyMap<string, TraceLot>;
  readonly flows: readonly TraceFlow[];
}

/** Pieces that were in the oven and that nobody weighed since: they weigh what they were scaled at, less water of which nobody knows how much. */
export const isBakedUnweighed = (lot: TraceLot | undefined): lot is TraceLot => lot?.type === 'batch' && lot.outMg === null;

/** The flows into a lot, each by itself or with the others of its any-of group: one amount, of which nobody knows which lot it came from. Contacts have no amount. */
export function intakesOf(flows: readonly TraceFlow[]): readonly (readonly TraceFlow[])[] {
  const groups = grouped(
    flows.filter((f) => f.type !== 'contact'),
    (f) => f.anyOf ?? f.id,
  );
  return [...groups.values()];
}

/** Flows by the lot that they go into, or come from. */
export function byEnd(flows: readonly TraceFlow[], end: 'source' | 'target'): ReadonlyMap<string, readonly TraceFlow[]> {
  return grouped(flows, (f) => f[end]);
}
