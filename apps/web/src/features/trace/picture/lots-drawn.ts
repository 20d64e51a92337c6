import type { TraceView } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { DrawnLot, EndLine, Flow, Flows } from './model';

type Lot = TraceView['lots'][number];

export interface Weights {
  readonly unit: Flows['unit'];
  /** How wide a lot is drawn. */
  readonly of: (lot: string) => number;
  /** How wide an amount of it is drawn: the same share of its width as the amount is of the lot. */
  readonly part: (lot: string, amount: { readonly pieces: number | null; readonly mg: number | null }) => number;
}

/**
 * Forward a lot is as wide as what it may hold of the one that was asked for, at most; backward as wide as what went of it into the next. Where no mass is
 * known of the first, pieces stand for it.
 */
export function weightsIn({ lots, direction, suspects }: Pick<TraceView, 'lots' | 'direction' | 'suspects'>): Weights {
  const byId = new Map(lots.map((l) => [l.id, l]));
  const first = lots.filter((l) => suspects.includes(l.id));
  const forward = direction === 'forward';
  const unit = (forward ? first : lots).some((l) => (forward ? massOf(l) : (l.by?.mg ?? null)) !== null) ? 'mg' : 'pieces';
  const of = (id: string): number => {
    const lot = byId.get(id);
    if (lot === undefined || lot.by?.type === 'contact') return 0;
    if (lot.by === null) return forward ? ((unit === 'mg' ? massOf(lot) : lot.pieces) ?? 0) : 0;
    if (unit === 'pieces') return lot.by.pieces ?? 0;
    return (forward ? lot.heldMaxMg : lot.by.mg) ?? 0;
  };
  const part: Weights['part'] = (id, { pieces, mg }) => {
    const lot = byId.get(id);
    if (lot === undefined) return 0;
    if (pieces !== null && lot.pieces !== null && lot.pieces > 0) return (of(id) * Math.max(0, pieces)) / lot.pieces;
    return mg !== null && lot.mg !== null && lot.mg > 0 ? (of(id) * Math.max(0, mg)) / lot.mg : 0;
  };
  return { unit, of, part };
}

const massOf = (l: Lot): number | null => l.heldMaxMg ?? l.mg;

/** Pieces of one product and the one batch that was counted out of them are the same food: they are drawn as one. */
export function drawnAs(lots: readonly Lot[]): (lot: string) => string {
  const children = grouped(lots, (l) => l.by?.from);
  const as = new Map<string, string>();
  for (const l of lots) {
    const [only, ...more] = children.get(l.id) ?? [];
    if (l.type === 'run' && l.by !== null && only?.type === 'batch' && more.length === 0 && only.certain === l.certain)
      as.set(l.id, only.id);
  }
  return (lot) => as.get(lot) ?? lot;
}

/** What is drawn of a trace, with the ends that its table has. */
export function flowsOf(trace: TraceView, weights: Weights, ends: readonly EndLine[], held: ReadonlySet<string>): Flows {
  const { lots } = trace;
  const as = drawnAs(lots);
  const byId = new Map(lots.map((l) => [l.id, l]));
  const shown = lots.filter((l) => as(l.id) === l.id);
  const runOf = new Map(lots.flatMap((l) => (as(l.id) === l.id ? [] : [[as(l.id), l] as const])));
  const before = (l: Lot): Lot['by'] => (runOf.get(l.id) ?? l).by;
  const layers = layersOf(shown, (l) => as(before(l)?.from ?? ''));
  const weight = (l: Lot): number => Math.max(weights.of(l.id), weights.of(runOf.get(l.id)?.id ?? l.id));
  const drawn = shown.map((l): DrawnLot => {
    const { id, name, code, at } = l;
    return { id, layer: layers.get(id) ?? 0, name, code, at, lot: id, weight: weight(l), held: held.has(id), folded: 0 };
  });
  const made = shown.flatMap((l): Flow[] => {
    const from = before(l)?.from;
    return from === undefined || !byId.has(from)
      ? []
      : [{ from: as(from), to: l.id, weight: weight(l), look: l.certain ? 'certain' : 'possible' }];
  });
  const gone = ends.flatMap((e) => e.from.map((f): Flow => ({ from: as(f.lot), to: e.id, weight: f.weight, look: f.look })));
  return { unit: weights.unit, lots: drawn, flows: [...made, ...together(gone)], ends: ends.map((e) => e.id) };
}

/** One band from a lot to an end, however often something went that way. */
export function together(flows: readonly Flow[]): Flow[] {
  const one = new Map<string, Flow>();
  for (const f of flows) {
    const key = `${f.from} ${f.to} ${f.look}`;
    one.set(key, { ...f, weight: f.weight + (one.get(key)?.weight ?? 0) });
  }
  return [...one.values()];
}

/** How many columns each lot is from the first; a lot whose way is not shown stands in the first one after it. */
function layersOf(lots: readonly Lot[], before: (lot: Lot) => string): ReadonlyMap<string, number> {
  const layers = new Map<string, number>();
  const waiting = [...lots].sort((a, b) => a.steps - b.steps);
  for (const l of waiting) {
    layers.set(l.id, l.by === null ? 0 : (layers.get(before(l)) ?? 0) + 1);
  }
  return layers;
}
