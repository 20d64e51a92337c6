import { grouped } from '@bakehouse/kernel';

/** One lot of a trace, with what a reader needs to recognise it. */
export interface TraceLot {
  readonly id: string;
  readonly name: string;
  readonly type: string;
  readonly code: string | null;
  readonly book: string;
  readonly mg: number | null;
  readonly pieces: number | null;
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

/** What goes into one lot as one amount: a certain flow, or a group of flows of which one or more happened and nobody knows which. */
export interface Intake {
  readonly flows: readonly TraceFlow[];
  readonly mg: number | null;
  readonly pieces: number | null;
}

/** The flows into a lot as intakes: an any-of group is one amount, counted once. Contacts are left out. */
export function intakesOf(flows: readonly TraceFlow[]): Intake[] {
  const groups = grouped(
    flows.filter((f) => f.type !== 'contact'),
    (f) => f.anyOf ?? f.id,
  );
  return [...groups.values()].map((group) => ({ flows: group, mg: group[0]?.mg ?? null, pieces: group[0]?.pieces ?? null }));
}

/** Flows by the lot that they go into, or come from. */
export function byEnd(flows: readonly TraceFlow[], end: 'source' | 'target'): ReadonlyMap<string, readonly TraceFlow[]> {
  return grouped(flows, (f) => f[end]);
}
