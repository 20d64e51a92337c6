import { latest, localDay } from '@bakehouse/kernel';
import type * as z from 'zod';
import type { Need, State } from '../base/state.js';
import { holding, holdingNeeds } from '../control/holds-release.js';
import type { lotTrouble } from '../rows/stock.js';

export type LotTrouble = z.infer<typeof lotTrouble>;

/** What has to be loaded before `troubleWith` can be asked about a lot. */
export const lotNeeds = (lot: string): Need[] => [
  { in: 'lot', id: lot },
  { in: 'receiptDecision', by: 'lot', value: lot },
  { in: 'lotIdentified', by: 'lot', value: lot },
  { in: 'hold', by: 'lot', value: lot },
  { in: 'holdLifted', by: 'lot', value: lot },
  ...holdingNeeds(lot),
];

/** The known lots that a placeholder turned out to be: a second round for `knownAs`. Needs `lotNeeds`. */
export const sameNeeds = (state: State, lot: string): Need[] => sameAs(state, lot).flatMap(lotNeeds);

/** A lot and what it was identified as, which share every trouble. Needs `lotNeeds`, and `sameNeeds` for asking about the others. */
export const knownAs = (state: State, lot: string): string[] => [lot, ...sameAs(state, lot)];

const sameAs = (state: State, lot: string): string[] => state.find('lotIdentified', 'lot', lot).flatMap((i) => i.same ?? []);

/**
 * Why a lot should not be used at an instant, or null: held, something open that holds it, refused, or past its use-by date where it is.
 * Using it is a fact all the same and is never refused for this. Needs `lotNeeds`.
 */
export function troubleWith(state: State, lot: string, at: string, zone: string): LotTrouble | null {
  const lifted = new Set(
    state
      .find('holdLifted', 'lot', lot)
      .filter((f) => f.at <= at)
      .map((f) => f.hold),
  );
  if (state.find('hold', 'lot', lot).some((h) => !lifted.has(h.id) && h.at <= at)) return 'held-lot-used';
  if (latest(state.find('receiptDecision', 'lot', lot).filter((d) => d.at <= at))?.decision === 'refused') return 'refused-lot-used';
  if (holding(state, lot).some((d) => d.at <= at)) return 'held-lot-used';
  const useBy = state.get('lot', lot)?.useBy ?? null;
  return useBy !== null && useBy < localDay(at, zone) ? 'expired-lot-used' : null;
}

/** The first trouble with a lot or with what it was identified as. Needs `lotNeeds` and `sameNeeds`. */
export function troubleBehind(state: State, lot: string, at: string, zone: string): LotTrouble | null {
  return (
    knownAs(state, lot)
      .map((one) => troubleWith(state, one, at, zone))
      .find((t) => t !== null) ?? null
  );
}
