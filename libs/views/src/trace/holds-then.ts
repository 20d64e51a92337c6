import type { TraceLot } from '@bakehouse/graph';
import { earliestOf, grouped } from '@bakehouse/kernel';
import { surelyThen, type surelyReached } from '@bakehouse/records';
import { toOwnShop } from './account-rows.js';
import type { DepartureRow, Ends } from './rows.js';

/** Whether what left a lot at a time surely holds what is looked for: at all, or from where it was recorded and by its way. */
export type HoldsThen = (lot: string, at: string, from?: Pick<DepartureRow, 'book' | 'channel'>) => boolean;

/**
 * What was put on a lot's pieces is surely on those that left it later, but not on what stood apart by then: at a shop of the house, or on the counter. What is sold from there
 * may be those.
 */
export function holdsThen(
  surely: ReturnType<typeof surelyReached>,
  ends: Pick<Ends, 'departures' | 'counter'>,
  lots: ReadonlyMap<string, Pick<TraceLot, 'book'>>,
): HoldsThen {
  const toShops = grouped(ends.departures.filter(toOwnShop), (d) => d.lot);
  const onCounter = grouped(ends.counter, (c) => c.lot);
  return (lot, at, from) => {
    const known = surely.get(lot);
    if (!surelyThen(known, at)) return false;
    const since = known?.sureFrom ?? null;
    if (since === null || from === undefined) return true;
    const elsewhere = from.book !== lots.get(lot)?.book && (toShops.get(lot) ?? []).some((d) => earliestOf(d) <= since);
    const stoodThere = from.channel === 'counter' && (onCounter.get(lot) ?? []).some((c) => c.book === from.book && earliestOf(c) <= since);
    return !elsewhere && !stoodThere;
  };
}
