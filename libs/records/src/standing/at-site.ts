import { sumOfKnown } from '@bakehouse/kernel';
import type { State } from '../base/state.js';
import { leftByPlace, type LeftByPlace, type Measure } from './left-of.js';
import { measureOf, movementsOf, placeOf, wentToShop } from './lot-rows.js';
import { countersOf } from './shelves.js';

/** How much of a lot is somewhere, in what it is measured in; null where nobody can say. */
export interface LeftThere {
  readonly amount: number | null;
  readonly measure: Measure;
}

/** What is left of a lot at a site by the records, or in the whole house where none is named. What may have gone as one of several lots is not known. Needs `movementNeeds`. */
export function leftThere(state: State, lot: string, site: string | null, at: string): LeftThere {
  const { left, measure } = partsOf(state, lot, at);
  if (site === null) return { amount: sumOfKnown([left.bakehouse, left.shop]), measure };
  return { amount: mayBeAtEither(state, lot, at, left) ? null : left[placeOf(state, lot, site)], measure };
}

/**
 * Whether nothing of a lot is at a site, surely, though some may be at another: every movement has its figure and they come to nothing there, and none of it stands on
 * the counter. An amount that nobody knows, or more gone than there ever was, may be there. Needs `movementNeeds`.
 */
export function surelyElsewhere(state: State, lot: string, site: string, at: string): boolean {
  const { left } = partsOf(state, lot, at);
  if (mayBeAtEither(state, lot, at, left)) return false;
  return left[placeOf(state, lot, site)] === 0 && !countersOf(state, lot, at, left).some((c) => c.site === site);
}

/** Whether some is left of a lot that went to a shop of the house too, and a recall case decided on some of it: nobody said where that stood. */
function mayBeAtEither(state: State, lot: string, at: string, { bakehouse, shop }: LeftByPlace): boolean {
  const departures = state.find('departure', 'lot', lot).filter((d) => d.at <= at);
  return (
    departures.some((d) => wentToShop(state, d)) && departures.some((d) => d.decided === 'amount') && sumOfKnown([bakehouse, shop]) !== 0
  );
}

function partsOf(state: State, lot: string, at: string): { readonly left: LeftByPlace; readonly measure: Measure } {
  const row = state.get('lot', lot);
  const measure = measureOf(row);
  return { left: leftByPlace(row?.[measure] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'unknown' }), measure), measure };
}
