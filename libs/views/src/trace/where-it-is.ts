import type { ShelvesView, TraceView } from '@bakehouse/contracts';
import type { accountOf, TraceLot } from '@bakehouse/graph';
import { sumOfKnown } from '@bakehouse/kernel';
import { standingView, type Standing } from '../standing/standing.js';

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

interface Shown {
  readonly standings: ReadonlyMap<string, Standing>;
  readonly siteName: (book: string) => string;
  readonly pastUseBy: (lot: TraceLot) => string | null;
}
type Accounts = readonly { readonly lot: TraceLot; readonly balance: ReturnType<typeof accountOf> }[];

/** What is in the house of these lots, and how it stands. */
export function onHandOf(accounts: Accounts, m: Shown): TraceView['onHand'] {
  return accounts.flatMap(({ lot, balance: { onHand, measure } }) => {
    const standing = m.standings.get(lot.id);
    if (!standing || standing.gone) return [];
    const { amount, by } = onHand ?? { amount: null, by: null };
    const view = standingView(standing, m.siteName);
    const where = whereItIs(view.shelves, { amount, measure, home: m.siteName(lot.book) });
    return [{ lot: lot.id, name: lot.name, code: lot.code, ...where, amount, by, measure, pastUseBy: m.pastUseBy(lot), ...view }];
  });
}
