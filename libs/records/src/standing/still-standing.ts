import { sumOfKnown } from '@bakehouse/kernel';
import type { State } from '../base/state.js';
import type { LeavingNow } from './leaving-now.js';
import { departuresOf, measureOf, placeOf } from './lot-rows.js';
import { onCounters, soldOver } from './places.js';

type Place = 'bakehouse' | 'shop';
interface Accepted {
  readonly at: string;
  /** When the first part was accepted: what stood there before is not of it. */
  readonly since: string;
}

/**
 * How much of a lot is spoken for once so much more of it leaves: that, and what stands on the counters and in a shop of the house, where somebody may buy it without
 * being asked again. What is sold over a counter is what stood on it, and what leaves a shop is what was sent there. Null where an amount is not known.
 */
export function withWhatStands(state: State, lot: string, leaving: LeavingNow, { at, since }: Accepted): number | null {
  const unit = measureOf(state.get('lot', lot));
  const now = leaving[unit];
  const departures = departuresOf(state, lot).filter((d) => d.at <= at);
  const others = departures.filter((d) => d.trip !== leaving.root);
  const counter = state.find('onCounter', 'lot', lot).filter((c) => c.at <= at && c.id !== leaving.root);
  const shown = (place: Place): number | null => {
    const there = (c: { readonly site: string }): boolean => placeOf(state, lot, c.site) === place;
    const stands = sumOfKnown(
      onCounters(counter, others)
        .filter(there)
        .map((c) => (unit === 'pieces' ? c.pieces : null)),
    );
    const put = sumOfKnown(counter.filter((c) => there(c) && c.way === 'on' && c.at >= since).map((c) => c.pieces));
    return put === 0 ? 0 : stands === null || put === null ? null : Math.max(0, Math.min(stands, put));
  };
  const inShop = lies();
  const [here, there] = [shown('bakehouse'), shown('shop')];
  if (now === null || here === null || there === null || inShop === null) return null;
  const from: Place = leaving.site === null ? 'bakehouse' : placeOf(state, lot, leaving.site);
  if (from === 'shop') return here + Math.max(inShop, leaving.way === 'shown' ? there + now : now);
  return inShop + (leaving.way === 'over-counter' ? Math.max(here, now) : here + now);

  /** What was sent to a shop since and has not gone from there. */
  function lies(): number | null {
    const later = others.filter((d) => d.at >= since);
    const sold = soldOver(counter, others).filter((d) => d.at >= since && d.at <= at);
    const sent = sumOfKnown(later.filter((d) => d.toShop).map((d) => d[unit]));
    if (sent === 0) return 0;
    const gone = [...later.filter((d) => !d.toShop), ...sold].filter((d) => placeOf(state, lot, d.site) === 'shop');
    const went = sumOfKnown(gone.map((d) => d[unit]));
    return sent === null || went === null ? null : Math.max(0, sent - went);
  }
}
