import { leftByPlace, type LeftByPlace, type Measure } from './left-of.js';
import { departuresOf, measureOf, movementsOf, placeOf, wentToShop } from './lot-rows.js';
import { latest, sumOfKnown } from '@bakehouse/kernel';
import { onCounters } from './places.js';
import type { State } from '../base/state.js';

/** Where food of a lot may stand in front of customers: in a shop of the house, on a counter. */
export interface Shelves {
  /**
   * Null where none of it is there. What stands on a counter in the shop is said there and not here as well. `amount` is null where nobody can say how much: then
   * there may be any. `shop` is the name of the shop that it was sent to, or of each of them.
   */
  readonly inShop: { readonly shop: string | null; readonly amount: number | null; readonly measure: Measure } | null;
  readonly onCounter: readonly { readonly site: string; readonly since: string; readonly pieces: number | null }[];
}

/** Where a lot may be bought now, by the records. Needs `movementNeeds`. */
export function shelvesOf(state: State, lot: string, at: string): Shelves {
  const row = state.get('lot', lot);
  const measure = measureOf(row);
  const sent = state.find('departure', 'lot', lot).filter((d) => d.at <= at && wentToShop(state, d));
  if (sent.length === 0 && state.find('onCounter', 'lot', lot).length === 0) return { inShop: null, onCounter: [] };
  const left = leftByPlace(row?.[measure] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), measure);
  const onCounter = countersOf(state, lot, at, left);
  const inFront = onCounter.filter((c) => placeOf(state, lot, c.site) === 'shop').map((c) => (measure === 'pieces' ? c.pieces : null));
  const shown = sumOfKnown(inFront);
  const amount = !sent.every((d) => d.certain) || left.shop === null || shown === null ? null : Math.max(0, left.shop - shown);
  return { inShop: sent.length === 0 || amount === 0 ? null : { shop: shopOf(state, sent), amount, measure }, onCounter };
}

/** What the shops are called that something was sent to. */
function shopOf(state: State, sent: readonly { readonly customer: string | null }[]): string | null {
  const named = [...new Set(sent.flatMap((d) => d.customer ?? []))].flatMap(
    (id) => latest(state.find('party', 'party', id).map((p) => ({ ...p, at: p.since })))?.name ?? [],
  );
  return named.length === 0 ? null : named.join(' or ');
}

/** Where a lot stands on a counter, and how much of it: no more than there is left of it at that site. Needs `movementNeeds`. */
export function countersOf(state: State, lot: string, at: string, left: LeftByPlace): Shelves['onCounter'] {
  const until = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => r.at <= at);
  const departures = until(departuresOf(state, lot));
  return onCounters(until(state.find('onCounter', 'lot', lot)), departures).map(({ pieces, mayBeFewer, ...there }) => {
    const most = left[placeOf(state, lot, there.site)];
    if (mayBeFewer && sumOfKnown([left.bakehouse, left.shop]) !== 0) return { ...there, pieces: null };
    return { ...there, pieces: pieces === null ? null : Math.max(0, most === null ? pieces : Math.min(pieces, most)) };
  });
}
