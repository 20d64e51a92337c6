import type { BatchStanding, TraceView } from '@bakehouse/contracts';
import type { TraceGraph } from '@bakehouse/graph';
import type { TraceQuestion } from './rows.js';
import { standingOfPart } from '../standing/batch-standing.js';
import type { Standing } from '../standing/standing.js';

export type DividedInto = NonNullable<TraceView['dividedInto']>;
type Part = DividedInto['parts'][number];

interface PartOf {
  readonly id: string;
  /** Pieces that a batch was counted out of: named for as long as some of them are still there. */
  readonly counted: boolean;
}

/** What a make was divided into, as its food is found now: the batches that were counted out of its pieces, pieces that are in none, and dough that was kept. */
export function partsOf({ lots, flows }: Pick<TraceGraph, 'lots' | 'flows'>, make: string): PartOf[] {
  if (lots.get(make)?.type !== 'made') return [];
  const from = (source: string, type: string): string[] => [
    ...new Set(flows.filter((f) => f.source === source && f.type === type).map((f) => f.target)),
  ];
  const found = from(make, 'divided').flatMap((id): PartOf[] => {
    const batches = from(id, 'batched');
    return [{ id, counted: batches.length > 0 }, ...batches.map((b) => ({ id: b, counted: false }))];
  });
  return [...new Map(found.map((p) => [p.id, p])).values()];
}

interface Found {
  readonly onHand: TraceView['onHand'];
  readonly standings: ReadonlyMap<string, Standing>;
  readonly batchStandings: ReadonlyMap<string, BatchStanding>;
  readonly shown: (lot: string) => boolean;
}

/**
 * Where the food of a make that was divided is now: nothing is left of it as one, and what it became is in the house or not, and stands, by itself. Null where it was
 * not divided.
 */
function dividedInto(graph: TraceGraph, make: string, { onHand, standings, batchStandings, shown }: Found): DividedInto | null {
  const parts = partsOf(graph, make);
  const at = graph.flows.find((f) => f.source === make && f.type === 'divided')?.at;
  if (parts.length === 0 || at === undefined) return null;
  const here = new Map(onHand.map((o) => [o.lot, o]));
  return {
    at,
    parts: parts.flatMap(({ id, counted }): Part[] => {
      const lot = graph.lots.get(id);
      const left = here.get(id);
      if (!lot || !shown(id) || (counted && left === undefined)) return [];
      const { name, code, type, mg, pieces } = lot;
      const standing = batchStandings.get(id) ?? standingOfPart(standings.get(id));
      return [{ lot: id, name, code, type, mg, pieces, left: left ? { amount: left.amount, measure: left.measure } : null, standing }];
    }),
  };
}

type Material = Pick<Found, 'standings' | 'batchStandings'> & { readonly question: TraceQuestion; readonly graph: TraceGraph };

/** What became of the one make that was asked about, of what the reader may see. */
export function becameOf({ question, graph, ...of }: Material, onHand: TraceView['onHand'], ids: ReadonlySet<string>): DividedInto | null {
  const [make, ...more] = question.suspects;
  if (make === undefined || more.length > 0 || question.direction === 'backward' || !ids.has(make)) return null;
  return dividedInto(graph, make, { ...of, onHand, shown: (lot) => ids.has(lot) });
}
