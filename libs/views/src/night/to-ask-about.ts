import { latest } from '@bakehouse/kernel';
import type { Lookup } from '../lookup/lookup.js';
import type { LotOnHand, ProductOnHand } from './on-hand.js';

export interface OldOnHand {
  readonly product: string;
  readonly name: string;
  readonly lot: LotOnHand;
  /** Some of it came back after it had gone, and nobody counted it since. */
  readonly cameBack: boolean;
}

/**
 * Of what stands here by the records, what nobody should take for today's without looking: past the day that it is dated to, baked a week ago or more with no date on it,
 * or come back, and not counted since the day began. The oldest first.
 */
export function toAskAbout(
  { state, at }: Pick<Lookup, 'state' | 'at'>,
  products: readonly ProductOnHand[],
  today: { readonly day: string; readonly from: string; readonly weekBefore: string },
): OldOnHand[] {
  const found = products.flatMap(({ product, name, lots }) =>
    lots.flatMap((lot): OldOnHand[] => {
      if (!lot.here || lot.left === 0) return [];
      const counted = latest(state.find('counted', 'lot', lot.id).filter((c) => c.at <= at));
      if (counted && counted.at >= today.from) return [];
      const cameBack = state.find('returned', 'lot', lot.id).some((r) => r.at <= at && (!counted || r.at > counted.at));
      const until = lot.useBy ?? lot.bestBefore;
      const old = until === null ? lot.bakedOn <= today.weekBefore : until < today.day;
      return old || cameBack ? [{ product, name, lot, cameBack }] : [];
    }),
  );
  return found.sort((a, b) => (a.lot.bakedOn < b.lot.bakedOn ? -1 : a.lot.bakedOn > b.lot.bakedOn ? 1 : a.name.localeCompare(b.name)));
}
