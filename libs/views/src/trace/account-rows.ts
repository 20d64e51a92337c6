import type { LotAccountRows, TraceLot } from '@bakehouse/graph';
import { grouped, latest } from '@bakehouse/kernel';
import { byPlace, measureOf, soldOver, staysInTheHouse, type Measure } from '@bakehouse/records';
import type { DepartureRow, EndsWithInto, ReturnedRow } from './rows.js';

/** Whether this departure only went to a shop of the house. */
export const toOwnShop = (d: Pick<DepartureRow, 'channel' | 'customerType'>): boolean => staysInTheHouse(d.channel, d.customerType);

/** A departure and a return with whether they went to a shop of the house and came from it. What went there as one of several lots is one of them. */
export const departedFrom = (d: DepartureRow) => ({ ...d, site: d.book, toShop: d.certain && toOwnShop(d) });
export const returnedFrom = (r: ReturnedRow) => ({ ...r, fromShop: staysInTheHouse(r.channel ?? '', r.customerType) });

/** What the balance of each lot is made from. Rows are sorted out by lot once: a wide recall has thousands of both. */
export function accountRowsOf(
  seen: readonly { readonly lot: TraceLot }[],
  ends: EndsWithInto,
): (LotAccountRows & { readonly lot: TraceLot })[] {
  const of = <T extends { readonly lot: string }>(rows: readonly T[]): ReadonlyMap<string, readonly T[]> => grouped(rows, (row) => row.lot);
  const [uses, departures, returned, counts, counter, carried, into] = [
    of(ends.uses),
    of(ends.departures),
    of(ends.returned),
    of(ends.counts),
    of(ends.counter),
    of(ends.carried),
    of(ends.into),
  ];
  return seen.map(({ lot }) => {
    const left = (departures.get(lot.id) ?? []).map(departedFrom);
    const sold = soldOver(counter.get(lot.id) ?? [], left).map((s) => ({ ...s, ...counted }));
    const back = (returned.get(lot.id) ?? []).map(returnedFrom);
    const { bakehouse, shop } = byPlace({
      departures: [...left, ...sold],
      returned: back,
      counts: counts.get(lot.id) ?? [],
      carried: carried.get(lot.id) ?? [],
    });
    return {
      lot,
      into: into.get(lot.id) ?? [],
      uses: uses.get(lot.id) ?? [],
      ...accountAt(bakehouse, measureOf(lot)),
      weighed: latest(bakehouse.counts.filter((c) => c.site === null)) ?? null,
      ...(shop ? { shop: accountAt(shop, measureOf(lot)) } : {}),
    };
  });
}

const counted = { how: 'counted', certain: true, anyOf: null, among: 1 };
type Gone = LotAccountRows['departures'][number];
type Back = ReturnedRow | Gone;

interface AtPlace {
  readonly gone: readonly Back[];
  readonly back: readonly Back[];
  readonly counts: EndsWithInto['counts'];
}

function accountAt({ gone, back, counts }: AtPlace, measure: Measure): Pick<LotAccountRows, 'departures' | 'returned' | 'count'> {
  return {
    departures: gone.map((g): Gone => ('anyOf' in g ? g : { ...g, ...counted, how: g.how, channel: 'returned' })),
    // What was sent to the shop has come into it.
    returned: back.map((b) => ('disposition' in b ? b : { mg: b.mg, pieces: b.pieces, at: b.at, disposition: 'on-hand' })),
    count: latest(counts.filter((c) => c.site !== null && c[measure] !== null)) ?? null,
  };
}
