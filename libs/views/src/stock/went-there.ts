import { grouped, inOrder, sumOfKnown } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

type Departure = Row<'departure'>;
export interface WentOnce {
  readonly at: string;
  /** The lot that went, or all of which one or more did: the newest first, each with its own row of the departure. */
  readonly lots: readonly { readonly lot: string; readonly code: string | null; readonly departure: string }[];
  /** How many pieces of it did not come back yet; null where nobody can say. */
  readonly stillOut: number | null;
}
export interface ProductThere {
  readonly product: string;
  readonly name: string;
  /** The newest first. */
  readonly went: readonly WentOnce[];
  readonly stillOut: number | null;
}
/** So many pieces that came back of one departure, as of one lot; `orOf` names the codes of others that it may have been. */
export interface Share {
  readonly lot: string;
  readonly departure: string;
  readonly pieces: number;
  readonly orOf: readonly string[];
}

/** What went to somebody and may come back, product by product: by a customer, or by the way it went where nobody was named. */
export function wentThere({ state, snapshot, at }: Lookup, of: (d: Departure) => boolean): ProductThere[] {
  const sent = inOrder(snapshot.departure.filter((d) => d.at <= at && d.decided === null && of(d))).toReversed();
  const groups = [...grouped(sent, (d) => d.anyOf ?? d.id).values()].flatMap((rows) => {
    const [first] = rows;
    const lot = first && state.get('lot', first.lot);
    return first && lot ? [{ product: lot.material, name: lot.name, once: onceOf(state, first, rows) }] : [];
  });
  return [...grouped(groups, (g) => g.product)]
    .map(([product, some]) => {
      const went = some.map((g) => g.once);
      return { product, name: some[0]?.name ?? '', went, stillOut: sumOfKnown(went.map((w) => w.stillOut)) };
    })
    .sort((a, b) => a.name.localeCompare(b.name));
}

function onceOf(state: Lookup['state'], first: Departure, rows: readonly Departure[]): WentOnce {
  const back = rows.flatMap((d) => state.find('returned', 'departure', d.id));
  const known = sumOfKnown(back.map((r) => r.pieces));
  const made = (lot: string): string => state.get('batch', lot)?.at ?? state.get('lot', lot)?.id ?? '';
  const lots = rows
    .map((d) => ({ lot: d.lot, code: state.get('lot', d.lot)?.code ?? null, departure: d.id }))
    .sort((a, b) => (made(a.lot) < made(b.lot) ? 1 : -1));
  return { at: first.at, lots, stillOut: first.pieces === null || known === null ? null : first.pieces - known };
}

/**
 * Which departures pieces came back from, the newest first, none more than went; of a lot that somebody read off the pack, or else of the newest it may be.
 * More than went is of the newest all the same: the balance says so.
 */
export function sharesOf({ went }: ProductThere, pieces: number, read: string | null): Share[] {
  const from = went.filter((w) => read === null || w.lots.some((l) => l.lot === read));
  let rest = pieces;
  const shares = from.flatMap((w): Share[] => {
    const some = Math.min(rest, Math.max(0, w.stillOut ?? rest));
    rest -= some;
    return some > 0 ? [shareOf(w, some, read)].flat() : [];
  });
  const [newest] = from;
  if (rest <= 0 || newest === undefined) return shares;
  const [first, ...others] = shares;
  return first ? [{ ...first, pieces: first.pieces + rest }, ...others] : shareOf(newest, rest, read);
}

function shareOf({ lots }: WentOnce, pieces: number, read: string | null): Share[] {
  const one = lots.find((l) => l.lot === read) ?? lots[0];
  if (one === undefined) return [];
  const orOf = read === null ? lots.flatMap((l) => (l === one ? [] : (l.code ?? 'no code'))) : [];
  return [{ lot: one.lot, departure: one.departure, pieces, orOf }];
}
