import { localDay } from '@bakehouse/kernel';
import type * as z from 'zod';
import type { Need, State } from '../base/state.js';
import type { lotTrouble } from '../rows/stock.js';
import { linkNeeds } from '../standing/links.js';
import { concernsOf, standingNeeds, type Reaching } from '../standing/standings.js';

export type LotTrouble = z.infer<typeof lotTrouble>;

/** What has to be looked for first before `troubleWith` can be asked about a lot. */
export const lotNeeds = (lot: string): Need[] => [{ in: 'lot', id: lot }, ...linkNeeds(lot)];

/** The rest of it: ask again until it names nothing new. */
export const troubleNeeds = (state: State, lots: readonly string[]): Need[] => standingNeeds(state, lots);

/**
 * Why a lot should not be used at an instant, or null: something that speaks against it or against what it was made of or identified as, on record of
 * then; or past its use-by date where it is. Using it is a fact all the same and is never refused for this.
 */
export function troubleWith(state: State, lot: string, at: string, zone: string): LotTrouble | null {
  const reaching = concernsOf(state, [lot], at).get(lot);
  return troubleOf(reaching ?? [], state.get('lot', lot)?.useBy ?? null, localDay(at, zone));
}

/**
 * Whether a deviation about such a use holds what was made. What holds or refuses the lot reaches what was made of it by itself, and ends there when it
 * ends: only an old lot is held by nothing else.
 */
export const holdsByItself = (trouble: LotTrouble): boolean => trouble === 'expired-lot-used';

/** The trouble that concerns and a use-by date make on a day. */
export function troubleOf(reaching: readonly Reaching[], useBy: string | null, day: string): LotTrouble | null {
  if (reaching.some((r) => r.concern.type === 'refused')) return 'refused-lot-used';
  if (reaching.length > 0) return 'held-lot-used';
  return useBy !== null && useBy < day ? 'expired-lot-used' : null;
}
