import { grouped, inOrder, siteDay, sumOfKnown } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

export interface OrderLine {
  readonly product: string;
  readonly name: string;
  /** Null where somebody sent it without saying how many. */
  readonly pieces: number | null;
}
/** What one customer was sent on one day, all that went there together. */
export interface OrderOfDay {
  readonly day: string;
  /** When the last of it went. */
  readonly at: string;
  readonly lines: readonly OrderLine[];
  /** How many lots went besides of which the rows do not say what product they are: the order is not all here. */
  readonly unnamed: number;
}
export interface Orders {
  readonly today: OrderOfDay | null;
  /** Of the last day before today. */
  readonly last: OrderOfDay | null;
}

const asked: readonly string[] = ['round', 'dispatch', 'own-shop', 'donation'] satisfies Row<'departure'>['channel'][];

/** What a customer was sent today and on the last day before, by the rows that are there: nothing is said of what they do not hold. */
export function ordersOf({ state, at }: Lookup, customer: string, site: { readonly zone: string; readonly dayStarts: string }): Orders {
  const sent = inOrder(
    state.find('departure', 'customer', customer).filter((d) => d.at <= at && d.decided === null && asked.includes(d.channel)),
  );
  const days = [...grouped(sent, (d) => siteDay(d.at, site))].map(([day, rows]) => orderOf(state, day, rows));
  const today = siteDay(at, site);
  return { today: days.find((o) => o.day === today) ?? null, last: days.findLast((o) => o.day < today) ?? null };
}

function orderOf(state: Lookup['state'], day: string, rows: readonly Row<'departure'>[]): OrderOfDay {
  const once = [...grouped(rows, (d) => d.anyOf ?? d.id).values()].flatMap(([d]) => d ?? []);
  const known = once.flatMap((d) => {
    const batch = state.get('batch', d.lot);
    return batch ? [{ product: batch.product, name: batch.productName, pieces: d.pieces }] : [];
  });
  const lines = [...grouped(known, (l) => l.product)].map(([product, some]) => ({
    product,
    name: some[0]?.name ?? '',
    pieces: sumOfKnown(some.map((l) => l.pieces)),
  }));
  return { day, at: rows.at(-1)?.at ?? '', lines, unnamed: once.length - known.length };
}
