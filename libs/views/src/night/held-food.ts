import type { ConcernView } from '@bakehouse/contracts';
import { byText } from '@bakehouse/kernel';
import { leftThere, surelyElsewhere, surelyGone, type LeftThere, type Row } from '@bakehouse/records';
import { codeOf, type LotCode, type Lookup } from '../lookup/lookup.js';
import { concernView, isOnHold } from '../standing/standing.js';

/** Food on hold, whatever holds it: a decision, a deviation, a recall, a late record, its life. */
export interface HeldFood {
  readonly id: string;
  readonly name: string;
  readonly type: Row<'lot'>['type'];
  readonly code: LotCode;
  readonly concerns: readonly ConcernView[];
  /** Since when, by the first that speaks against it. */
  readonly since: string;
  /** How much of it is at the site whose screen it is. */
  readonly left: LeftThere;
}

/**
 * Every lot on hold of which some is at the site, or may be, the newest reason first: by the same functions as the list of what is on hold, over the rows that a device
 * holds, so that it is said without a network too. What the service knows to be at other sites alone is not on it.
 */
export function heldFood(lookup: Lookup): HeldFood[] {
  const { state, concerns, at, site } = lookup;
  return [...concerns.keys()]
    .filter((id) => site === null || !surelyElsewhere(state, id, site, at))
    .flatMap((id) => heldOf(lookup, id) ?? [])
    .sort((a, b) => byText(b.since, a.since) || byText(a.id, b.id));
}

/** One lot, where it is on hold, at whichever site; null where it is not. */
export function heldOf(lookup: Lookup, id: string): HeldFood | null {
  const { state, snapshot, concerns, at, site } = lookup;
  const row = state.get('lot', id);
  const against = (concerns.get(id) ?? []).map((r) => concernView(state, r, id));
  const elsewhere = snapshot.heldElsewhere?.some((l) => l.id === id) === true;
  if (!row || elsewhere || against.length === 0 || !isOnHold({ gone: surelyGone(state, id, at), concerns: against })) return null;
  const since = against.map((c) => c.since).reduce((a, b) => (b < a ? b : a));
  const code = codeOf(lookup, id);
  return { id, name: row.name, type: row.type, code, concerns: against, since, left: leftThere(state, id, site, at) };
}
