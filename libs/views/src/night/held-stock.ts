import { byText } from '@bakehouse/kernel';
import { surelyGone, type LotTrouble } from '@bakehouse/records';
import { codeOf, isOnHoldOrRefused, troubleOn, type LotCode, type Lookup } from '../lookup/lookup.js';

/** Something in the store that is on hold by itself: no deviation that stands on a list of its own says so. */
export interface HeldStock {
  readonly id: string;
  readonly name: string;
  readonly code: LotCode;
  readonly trouble: LotTrouble;
  /** Since when, by the first that speaks against it. */
  readonly since: string;
}

const stocked: ReadonlySet<string> = new Set(['received', 'placeholder', 'made', 'old-dough', 'vessel']);

/** Ingredients and what was made for later on which a hold was placed, which were refused, or which a case is about; what came of them is told where it stands. The newest first. */
export function heldStock(lookup: Lookup): HeldStock[] {
  const { state, concerns, at } = lookup;
  return [...concerns]
    .flatMap(([id, reaching]): HeldStock[] => {
      const row = state.get('lot', id);
      const own = reaching.filter(({ concern: c }) => c.lot === id && (c.type === 'held' || c.type === 'recall' || c.type === 'refused'));
      const trouble = own.length === 0 || !row || !stocked.has(row.type) || surelyGone(state, id, at) ? null : troubleOn(lookup, id);
      if (!row || trouble === null || !isOnHoldOrRefused(trouble)) return [];
      const since = own.map(({ concern }) => concern.since).reduce((a, b) => (b < a ? b : a));
      return [{ id, name: row.name, code: codeOf(lookup, id), trouble, since }];
    })
    .sort((a, b) => byText(b.since, a.since) || byText(a.id, b.id));
}
