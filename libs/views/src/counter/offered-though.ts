import type { CounterView, HeldLot } from '@bakehouse/contracts';

interface Here {
  readonly onHold: readonly Pick<HeldLot, 'lot' | 'name' | 'code' | 'shelves'>[];
  readonly site: string;
  readonly sites: readonly { readonly id: string; readonly name: string }[];
}

/**
 * On hold, and in front of customers here by the records: on this site's counter, or sent to a shop of the house, unless that is another of its sites. A shop that
 * has no site of its own, or is called otherwise, may be any: it is named.
 */
export const offeredThough = ({ onHold, site, sites }: Here): CounterView['held'] => {
  const elsewhere = new Set(sites.filter((s) => s.id !== site).map((s) => called(s.name)));
  return onHold.flatMap(({ lot, name, code, shelves: { onCounter, inShop } }): CounterView['held'] => {
    const here = onCounter.find((c) => c.site === site);
    if (here) return [{ lot, name, code, since: here.since, shop: null, pieces: here.pieces }];
    if (inShop === null || (inShop.shop !== null && elsewhere.has(called(inShop.shop)))) return [];
    return [{ lot, name, code, since: null, shop: inShop.shop, pieces: inShop.measure === 'pieces' ? inShop.amount : null }];
  });
};

const called = (name: string): string => name.trim().toLowerCase();
