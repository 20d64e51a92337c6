import { grouped } from '@bakehouse/kernel';
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

/** When food of a case was with a customer by: the last of what went there, which is known to have gone between two instants where a round did. */
export const lastThere = (departures: readonly { readonly at: string; readonly until: string | null }[]): string =>
  departures.map((d) => d.until ?? d.at).reduce((last, at) => (at > last ? at : last), '');

/**
 * Whether one of these calls told a customer of all that went there: who was rung before more of it came is rung again. Of the same instant nobody knows which
 * was first.
 */
export const toldOfAll = (calls: readonly (Call & { readonly at: string })[], party: string, last: string): boolean =>
  calls.some((c) => c.party === party && c.answer === 'told' && c.at > last);

/** The customers that food of a case went to and whom none of its calls told since, in the order of their ids. Needs `notReachedNeeds`, or `heldNeeds`, of what the case begins at. */
export function notReachedBy(state: State, calls: readonly (Call & { readonly at: string })[], begins: readonly string[]): string[] {
  const went = downstreamOf(state, begins)
    .flatMap((lot) => state.find('departure', 'lot', lot))
    // A shop of the house is no customer: what is there is in the house.
    .flatMap((d) => (d.customer === null || wentToShop(state, d) ? [] : [{ ...d, customer: d.customer }]));
  const customers = grouped(went, (d) => d.customer);
  return [...customers].flatMap(([customer, all]) => (toldOfAll(calls, customer, lastThere(all)) ? [] : [customer])).sort();
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
