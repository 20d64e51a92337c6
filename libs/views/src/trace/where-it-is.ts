import type { ShelvesView, TraceView } from '@bakehouse/contracts';
import { sumOfKnown } from '@bakehouse/kernel';

type OnHand = TraceView['onHand'][number];

/** Where in the house an amount is: so much on each shelf, and the rest where the lot belongs. Each piece is in one place. */
export function whereItIs(
  { inShop, onCounter }: ShelvesView,
  { amount, measure, home }: Pick<OnHand, 'amount' | 'measure'> & { readonly home: string },
): Pick<OnHand, 'site' | 'inStore'> {
  const pieces = measure === 'pieces';
  const shelved = [...(inShop === null ? [] : [inShop.amount]), ...onCounter.map((c) => (pieces ? c.pieces : null))];
  const shown = sumOfKnown(shelved);
  const rest = amount === null || shown === null ? null : amount - shown;
  const inStore = rest === 0 && shelved.length > 0 ? null : { site: home, amount: rest };
  const names = [inStore?.site, inShop === null ? undefined : (inShop.shop ?? 'the shop'), ...onCounter.map((c) => c.siteName)];
  return { inStore, site: [...new Set(names.flatMap((name) => name ?? []))].join(' and ') };
}
