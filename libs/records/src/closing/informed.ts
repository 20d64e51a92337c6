import type { Need, State } from '../base/state.js';
import { notifiedTo, type NotifiedTo } from '../rows/recalls.js';
import { downstreamNeeds, downstreamOf } from '../standing/held-by.js';
import { wentToShop } from '../standing/lot-rows.js';

interface Call {
  readonly party: string;
  readonly answer: string;
}

/** Who was told of a recall: everybody whom one of these calls told, however many did not reach them before or after. */
export const informedBy = (calls: readonly Call[]): ReadonlySet<string> =>
  new Set(calls.flatMap((c) => (c.answer === 'told' ? c.party : [])));

/** The customers that food of a case went to and whom none of its calls told, in the order of their ids. Needs `notReachedNeeds`, or `heldNeeds`, of what the case begins at. */
export function notReachedBy(state: State, calls: readonly Call[], begins: readonly string[]): string[] {
  const told = informedBy(calls);
  const customers = downstreamOf(state, begins)
    .flatMap((lot) => state.find('departure', 'lot', lot))
    // A shop of the house is no customer: what is there is in the house.
    .flatMap((d) => (d.customer === null || wentToShop(state, d) ? [] : d.customer));
  return [...new Set(customers)].filter((customer) => !told.has(customer)).sort();
}

/** What has to be looked for before `notReachedBy` can be asked: ask again until it names nothing new. */
export function notReachedNeeds(state: State, begins: readonly string[]): Need[] {
  const open = downstreamNeeds(state, begins).filter((need) => !state.knows(need));
  if (open.length > 0) return open;
  const departures = downstreamOf(state, begins).map((value): Need => ({ in: 'departure', by: 'lot', value }));
  const unknown = departures.filter((need) => !state.knows(need));
  if (unknown.length > 0) return unknown;
  const customers = downstreamOf(state, begins).flatMap((lot) => state.find('departure', 'lot', lot).flatMap((d) => d.customer ?? []));
  return [...new Set(customers)].map((value) => ({ in: 'party', by: 'party', value }));
}

/** Of the authority and the public, who is not recorded as told. */
export const notToldOf = (notified: readonly { readonly to: NotifiedTo }[]): NotifiedTo[] =>
  notifiedTo.options.filter((to) => !notified.some((n) => n.to === to));
