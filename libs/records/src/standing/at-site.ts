import { sumOfKnown } from '@bakehouse/kernel';
import type { State } from '../base/state.js';
import { leftByPlace, type LeftByPlace, type Measure } from './left-of.js';
import { measureOf, movementsOf, placeOf } from './lot-rows.js';
import { countersOf } from './shelves.js';

/** How much of a lot is somewhere, in what it is measured in; null where nobody can say. */
export interface LeftThere {
  readonly amount: number | null;
  readonly measure: Measure;
}

/** What is left of a lot at a site by the records, or in the whole house where none is named. What may have gone as one of several lots is not known. Needs `movementNeeds`. */
export function leftThere(state: State, lot: string, site: string | null, at: string): LeftThere {
  const { left, measure } = partsOf(state, lot, at);
  return { amount: site === null ? sumOfKnown([left.bakehouse, left.shop]) : left[placeOf(state, lot, site)], measure };
}

/**
 * Whether nothing of a lot is at a site, surely, though some may be at another: every movement has its figure and they come to nothing there, and none of it stands on
 * the counter. An amount that nobody knows, or more gone than there ever was, may be there. Needs `movementNeeds`.
 */
export function surelyElsewhere(state: State, lot: string, site: string, at: string): boolean {
  const { left } = partsOf(state, lot, at);
  return left[placeOf(state, lot, site)] === 0 && !countersOf(state, lot, at, left).some((c) => c.site === site);
}

function partsOf(state: State, lot: string, at: string): { readonly left: LeftByPlace; readonly measure: Measure } {
  const row = state.get('lot', lot);
  const measure = measureOf(row);
  return { left: leftByPlace(row?.[measure] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'unknown' }), measure), measure };
}
