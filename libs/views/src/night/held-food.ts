import type { ConcernView } from '@bakehouse/contracts';
import { byText } from '@bakehouse/kernel';
import { surelyGone, type Row } from '@bakehouse/records';
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
}

/**
 * Every lot of the site that is on hold, the newest reason first: by the same functions as the list of what is on hold, over the rows that a device holds, so that it is
 * said without a network too. What the service knows to be at other sites alone is not on it.
 */
export function heldFood(lookup: Lookup): HeldFood[] {
  const { state, snapshot, concerns, at } = lookup;
  const elsewhere = new Set((snapshot.heldElsewhere ?? []).map((l) => l.id));
  return [...concerns]
    .flatMap(([id, reaching]): HeldFood[] => {
      const row = state.get('lot', id);
      const against = reaching.map((r) => concernView(state, r, id));
      if (!row || elsewhere.has(id) || against.length === 0 || !isOnHold({ gone: surelyGone(state, id, at), concerns: against })) return [];
      const since = against.map((c) => c.since).reduce((a, b) => (b < a ? b : a));
      return [{ id, name: row.name, type: row.type, code: codeOf(lookup, id), concerns: against, since }];
    })
    .sort((a, b) => byText(b.since, a.since) || byText(a.id, b.id));
}
