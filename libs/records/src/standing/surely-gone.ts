import { latest } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';
import { leftOf } from './left-of.js';
import { comesBack } from './places.js';
import { measureOf, movementNeeds, movementsOf, wentToShop } from './lot-rows.js';

/** What has to be looked for, as far as can be named now, before `surelyGone` can be asked. */
export const goneNeeds = (state: State, lot: string): Need[] => [
  ...movementNeeds(state, lot),
  { in: 'emptied', by: 'lot', value: lot },
  { in: 'inUse', by: 'lot', value: lot },
  { in: 'divided', by: 'make', value: lot },
  { in: 'makeEnded', by: 'make', value: lot },
  { in: 'disposition', by: 'subject', value: lot },
];

/**
 * Whether nothing of a lot is left in the house, surely: the last count says so, or it was made up, reworked or destroyed, or every movement is
 * known and they come to nothing. At an instant, or by all that is on record. What stands on a counter, or in a shop of the house, is in the house until
 * somebody counts, sells or throws it away. An amount that nobody knows, or more gone than there ever was, is never "not there": what is not surely gone is held.
 */
export function surelyGone(state: State, lot: string, at: string | null): boolean {
  const row = state.get('lot', lot);
  const until = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => at === null || r.at <= at);
  const count = latest(until(state.find('counted', 'lot', lot)));
  const since = (t: string): boolean => !count || t >= count.at;
  // What was destroyed has left; what is to be reworked leaves when it is weighed in, and without an amount all of it is.
  const reworked = state
    .find('disposition', 'subject', lot)
    .filter((d) => d.disposition === 'reworked' && d.mg === null && d.pieces === null);
  if (until(reworked).some((d) => since(d.at))) return true;
  const back = latest(until(state.find('returned', 'lot', lot)).filter((r) => comesBack(r.disposition)));
  const opened = latest(until(state.find('inUse', 'lot', lot)));
  // A station where nothing is left says nothing of the store, of another station or of the shop. A vessel is all there is of its content, which went on into what came next.
  const emptied = row?.type === 'vessel' ? state.find('emptied', 'lot', lot) : [];
  const ended = [...until(state.find('divided', 'make', lot)), ...until(emptied)].filter((e) => since(e.at));
  if (ended.some((e) => (!opened || opened.at <= e.at) && (!back || back.at < e.at))) return true;
  // What perhaps went to the own shop, as one of several lots, is perhaps there.
  const perhaps = state.find('departure', 'lot', lot).filter((d) => !d.certain && wentToShop(state, d));
  if (until(perhaps).length > 0) return false;
  return surelyLeft(state, lot, at) === 0;
}

/** Whether the whole of a lot, or all that was left of it, was destroyed by signed decision and nothing is there any more. Needs `goneNeeds`. */
export function destroyedWhole(state: State, lot: string): boolean {
  const decided = state.find('departure', 'lot', lot).filter((d) => d.decided !== null);
  if (decided.length === 0 || !surelyGone(state, lot, null)) return false;
  const unit = measureOf(state.get('lot', lot));
  const amount = decided.reduce((sum, d) => sum + (d[unit] ?? 0), 0);
  return decided.some((d) => d.decided === 'rest') || amount >= (state.get('lot', lot)?.[unit] ?? Infinity);
}

/** What is left of a lot by what surely came and went; null where that cannot be said. Needs `goneNeeds`. */
export function surelyLeft(state: State, lot: string, at: string | null): number | null {
  const row = state.get('lot', lot);
  const unit = measureOf(row);
  // One of several lots left, nobody knows which: of this one, perhaps nothing.
  return leftOf(row?.[unit] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out', certainUses: true }), unit);
}
