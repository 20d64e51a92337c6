import { grouped, latest } from '@bakehouse/kernel';
import { leftByPlace, type Measure } from './left-of.js';
import { measureOf, movementsOf, wentToShop } from './lot-rows.js';
import type { State } from '../base/state.js';

/** Where food of a lot may stand in front of customers: in a shop of the house, on a counter. */
export interface Shelves {
  /** Null where none of it is there. `amount` is null where nobody can say how much: then there may be any. */
  readonly inShop: { readonly amount: number | null; readonly measure: Measure } | null;
  readonly onCounter: readonly { readonly site: string; readonly since: string; readonly pieces: number | null }[];
}

/** Where a lot may be bought now, by the records. Needs `movementNeeds`. */
export function shelvesOf(state: State, lot: string, at: string): Shelves {
  const row = state.get('lot', lot);
  const measure = measureOf(row);
  const sent = state.find('departure', 'lot', lot).filter((d) => d.at <= at && wentToShop(state, d));
  const { shop } = leftByPlace(row?.[measure] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), measure);
  const amount = sent.every((d) => d.certain) ? shop : null;
  const rows = state.find('onCounter', 'lot', lot).filter((c) => c.at <= at);
  const last = [...grouped(rows, (c) => c.site).values()].flatMap((of) => latest(of) ?? []);
  return {
    inShop: sent.length === 0 || amount === 0 ? null : { amount, measure },
    onCounter: last.filter((c) => c.way === 'on').map(({ site, at: since, pieces }) => ({ site, since, pieces })),
  };
}
