import { grouped, inOrder, sumOfKnown } from '@bakehouse/kernel';
import {
  acceptedPart,
  countersOf,
  leftByPlace,
  movedTo,
  movementsOf,
  placeOf,
  wentToShop,
  type AcceptedPart,
  type LotTrouble,
  type Row,
  type WhereNow,
} from '@bakehouse/records';
import { keptFrom } from '../standing/kept-from.js';
import { batchView, type BatchView } from './batches.js';
import { dueAtBatch } from './due.js';
import { isLate } from './late.js';
import { isOnHoldOrRefused, saidOf, troubleOn, type Lookup } from '../lookup/lookup.js';

export interface LotOnHand {
  readonly id: string;
  readonly code: string;
  readonly bestBefore: string | null;
  readonly useBy: string | null;
  readonly bakedOn: string;
  /** Here, counted out or counted since, less what surely went; below zero where more went than there was. Null where a movement has no figure. */
  readonly left: number | null;
  /**
   * Whether it is told where this is: some may be left, it stands on the counter, or it is on hold or was refused, which is told wherever it is. A date alone says nothing
   * of what is all at another place.
   */
  readonly here: boolean;
  /** Sent to a shop of the house and there still; null where nobody can say how many. Where this is the shop, it is what is left. */
  readonly inShop: number | null;
  readonly release: BatchView['release']['state'];
  readonly trouble: LotTrouble | null;
  /** What was accepted for use of it in spite of what keeps the rest, and how many of those may still leave; null where nothing was, or nothing keeps it. */
  readonly accepted: AcceptedPart | null;
  /** What is said of it where it is offered: its trouble, or that it is past its best-before date. */
  readonly said: ReturnType<typeof saidOf>;
  /** Critical readings of it that nobody took in time, by what is read. */
  readonly late: readonly string[];
  /** Where it was carried last, where somebody recorded it. */
  readonly where: WhereNow | null;
  /** Since when it stands on the counter, and how many are there by the records; null where it does not. */
  readonly onCounter: { readonly since: string; readonly pieces: number | null } | null;
}
export interface ProductOnHand {
  readonly product: string;
  readonly name: string;
  readonly lots: readonly LotOnHand[];
  /**
   * Of those of its lots that nothing speaks against, with what went as one of several lots taken off once; below zero where more went of all of them than
   * there was. Null where nobody can say.
   */
  readonly left: number | null;
  /** So many more are here and on hold or refused, and so many past their date: none of them is to go. Null where nobody can say how many. */
  readonly onHold: number | null;
  readonly pastDate: number | null;
}

/** What there is to send out, in pieces: every batch that the records hold and that is not all gone, product by product, the oldest lot first. */
export function onHandOf(lookup: Lookup): ProductOnHand[] {
  const { snapshot, at } = lookup;
  const batches = inOrder(snapshot.batch.filter((b) => b.at <= at));
  const products = [...grouped(batches, (b) => b.product)].map(([product, some]) => {
    const lots = some.map((b) => lotOnHand(lookup, b));
    return {
      product,
      name: some[0]?.productName ?? '',
      lots: lots.filter((l) => l.left !== 0 || l.inShop !== 0 || l.onCounter !== null),
      ...leftOfAll(lookup, lots),
    };
  });
  return products.filter((p) => p.lots.length > 0).sort((a, b) => a.name.localeCompare(b.name));
}

function leftOfAll(lookup: Lookup, lots: readonly LotOnHand[]): Pick<ProductOnHand, 'left' | 'onHold' | 'pastDate'> {
  const leftIn = (some: readonly LotOnHand[], counts: (among: readonly string[], of: ReadonlySet<string>) => boolean): number | null => {
    const of = new Set(some.map((l) => l.id));
    const [sum, either] = [sumOfKnown(some.map((l) => l.left)), goneAsAnyOf(lookup, lots, (among) => counts(among, of))];
    return sum === null || either === null ? null : sum - either;
  };
  const kept = (why: 'on-hold' | 'past-date'): number | null => {
    const left = leftIn(
      lots.filter((l) => keptFrom(l) === why),
      (among, of) => among.every((lot) => of.has(lot)),
    );
    return left === null ? null : Math.max(0, left);
  };
  const free = lots.filter((l) => keptFrom(l) === null);
  const touches = (among: readonly string[], of: ReadonlySet<string>): boolean => among.some((lot) => of.has(lot));
  const [all, left] = [leftIn(lots, touches), leftIn(free, touches)];
  // What went as one of several lots may have gone of those that are kept now: of the others there are no fewer than none.
  const some = all !== null && all < 0 ? all : left === null || free.length === lots.length ? left : Math.max(0, left);
  return { left: some, onHold: kept('on-hold'), pastDate: kept('past-date') };
}

function lotOnHand(lookup: Lookup, batch: Row<'batch'>): LotOnHand {
  const { state, at } = lookup;
  const { id, code, bestBefore, useBy, bakedOn } = batch;
  const by = leftByPlace(batch.pieces, movementsOf(state, id, at, { oneOfSeveral: 'left-out' }), 'pieces');
  const [counter] = countersOf(state, id, at, by).filter((c) => lookup.site === null || c.site === lookup.site);
  const left = by[lookup.site === null ? 'bakehouse' : placeOf(state, id, lookup.site)];
  const trouble = troubleOn(lookup, id);
  return {
    ...{ id, code, bestBefore, useBy, bakedOn },
    left,
    here: left !== 0 || counter !== undefined || isOnHoldOrRefused(trouble),
    inShop: by.shop,
    release: batchView(lookup, batch).release.state,
    trouble,
    accepted: acceptedOf(lookup, id, trouble, left),
    said: saidOf(lookup, id),
    late: dueAtBatch(lookup, batch)
      .filter((d) => isLate(d, at))
      .map((d) => d.parameter),
    where: movedTo(state, id, at),
    onCounter: counter ? { since: counter.since, pieces: counter.pieces } : null,
  };
}

/** A date keeps all of it: no decision about a part speaks of that. No more may leave than is here. */
function acceptedOf({ state, concerns, at }: Lookup, lot: string, trouble: LotTrouble | null, here: number | null): AcceptedPart | null {
  if (!isOnHoldOrRefused(trouble)) return null;
  const of = (concerns.get(lot) ?? []).map((r) => r.concern.id);
  const part = acceptedPart(state, lot, of, at);
  return part && { ...part, mayLeave: here === null ? part.mayLeave : Math.max(0, Math.min(part.mayLeave, here)) };
}

/** What signed decisions destroyed of a batch: it is off the stock already. */
export interface DestroyedOf {
  readonly id: string;
  readonly name: string;
  readonly code: string;
  /** Null for all that was left. */
  readonly pieces: number | null;
  readonly mg: number | null;
}

/** What was decided destroyed of batches, once for each decision, in the order of the decisions. */
export const decidedDestroyed = ({ snapshot, state, at }: Lookup): DestroyedOf[] =>
  inOrder(snapshot.departure.filter((d) => d.decided !== null && d.channel === 'waste' && d.at <= at)).flatMap((d) => {
    const batch = state.get('batch', d.lot);
    const [pieces, mg] = d.decided === 'rest' ? [null, null] : [d.pieces, d.mg];
    return batch ? [{ id: d.id, name: batch.productName, code: batch.code, pieces, mg }] : [];
  });

/** Pieces that went as one of several of these lots, of the groups that count, each going once; one that went before all of its lots were counted is in the counts already. */
function goneAsAnyOf({ state, at }: Lookup, lots: readonly LotOnHand[], counts: (among: readonly string[]) => boolean): number | null {
  const uncertain = lots.flatMap((l) =>
    state.find('departure', 'lot', l.id).filter((d) => !d.certain && d.at <= at && !wentToShop(state, d)),
  );
  // The rest of a lot that was destroyed is as good as counted: nothing of it is left.
  const knownSince = (lot: string): readonly { readonly at: string }[] => [
    ...state.find('counted', 'lot', lot),
    ...state.find('departure', 'lot', lot).filter((d) => d.decided === 'rest'),
  ];
  const countedSince = (d: Row<'departure'>): boolean => knownSince(d.lot).some((c) => c.at >= d.at && c.at <= at);
  const groups = [...grouped(uncertain, (d) => d.anyOf ?? d.id).values()].filter(
    (group) => !group.every(countedSince) && counts(group.map((d) => d.lot)),
  );
  return sumOfKnown(groups.map(([d]) => d?.pieces ?? null));
}
