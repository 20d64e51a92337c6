import { surelyGone } from '@bakehouse/records';
import type { ConcernView } from '@bakehouse/contracts';
import type { Lookup } from '../lookup/lookup.js';
import { concernView } from '../standing/standing.js';

/**
 * What speaks against something that is being made. Where all of it was made into something else, what came with it stands there; what was recorded about
 * it itself is still said of it.
 */
export function concernsOn(lookup: Lookup, lot: string): ConcernView[] {
  const reaching = lookup.concerns.get(lot) ?? [];
  if (reaching.length === 0) return []; // almost always: what is left of a lot is the longer question
  const gone = surelyGone(lookup.state, lot, lookup.at);
  return reaching.filter((r) => !gone || r.concern.lot === lot).map((r) => concernView(lookup.state, r, lot));
}
