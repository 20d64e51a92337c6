import { grouped } from '@bakehouse/kernel';

/** Milligrams at least, and at most: null where some was put on that nobody weighed. */
export interface PutOn {
  readonly minMg: number;
  readonly maxMg: number | null;
}
export const nothingPutOn: PutOn = { minMg: 0, maxMg: 0 };

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
  /** What was put on its pieces since they were scaled, on all of them together: oil, wash, seeds, glaze. */
  readonly putOn: PutOn;
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
