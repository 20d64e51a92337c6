import { comesBack, measureOf, thereWas, type Measure } from '@bakehouse/records';
import type { Movement } from './balance.js';
import type { Gone, LotAccountRows } from './account-rows.js';

export type GoneFrom = Movement & {
  readonly at: string;
  readonly group: string | null;
  readonly anyOf: string | null;
  readonly among: number;
};
interface At {
  readonly amount: number;
  readonly at: string;
}

/** What came and went of a lot in one place, in its own measure. */
export interface Account {
  readonly lot: LotAccountRows['lot'];
  readonly measure: Measure;
  /** What there ever was of it, and what of that was lost in making it. */
  readonly received: number | null;
  readonly lost: number;
  readonly gone: readonly GoneFrom[];
  readonly back: readonly { readonly amount: number | null; readonly at: string }[];
  /** The last count, with what went into it since; null where nobody has counted all of it since it was made. */
  readonly count: (At & { readonly came: number }) | null;
  /** What there was when it was last counted, weighed or destroyed to the last, or at first: what is left is this, less what went since. */
  readonly had: { readonly amount: number | null; readonly at: string };
}

/**
 * One account where it was made or came in, and one in the shop, which had nothing of it before anything was sent there. Where only one of the two has counted,
 * the other's starts from what it had at first, so that what the one misses is said.
 */
export function accountsIn({ shop, ...made }: LotAccountRows): Account[] {
  const rest = lastOf([...made.departures, ...(shop?.departures ?? [])].filter((d) => d.decided === 'rest'));
  if (!shop) return [accountIn(made, rest)];
  const measure = measureOf(made.lot);
  const [bakehouse, inShop] = [accountIn(made, rest), accountIn({ lot: noneOf(made.lot, measure), uses: [], ...shop }, rest)];
  const first = made.lot[measure];
  const atFirst = (amount: number) => ({ amount, at: '', came: 0 });
  return [
    { ...bakehouse, count: bakehouse.count ?? (inShop.count && first !== null ? atFirst(first) : null) },
    { ...inShop, count: inShop.count ?? (bakehouse.count && atFirst(0)) },
  ];
}

const noneOf = (lot: LotAccountRows['lot'], measure: Measure): LotAccountRows['lot'] => ({ ...lot, [measure]: 0, lostMg: null });

type Rows = Omit<LotAccountRows, 'shop'>;

function accountIn(rows: Rows, rest: Gone | undefined): Account {
  const { lot, uses, departures, returned, into = [] } = rows;
  const measure = measureOf(lot);
  const went = (type: string, g: Gone): GoneFrom => ({
    type,
    amount: g[measure],
    how: g.how,
    possible: !g.certain,
    at: g.at,
    // Pieces and milligrams of one group are not one amount.
    group: g.anyOf === null ? null : `${g.anyOf} ${measure}`,
    anyOf: g.anyOf,
    among: g.among,
  });
  const gone = [...uses.map((u) => went(u.type, u)), ...departures.map((d) => went(d.channel, d))];
  // What came back and went straight on to waste or feed did not come back into the account.
  const back = returned.filter((c) => comesBack(c.disposition)).map((c) => ({ amount: c[measure], at: c.at }));
  const known = [rows.count, rows.weighed].filter((one) => one !== null && one !== undefined && one[measure] !== null);
  const last = lastOf([...known.flatMap((one) => one ?? []), ...(rest ? [{ at: rest.at, mg: 0, pieces: 0 }] : [])]);
  const counted = rows.count && (!rows.weighed || rows.count.at > rows.weighed.at) ? rows.count : null;
  const amount = counted?.[measure] ?? null;
  const came = counted && thereWas(null, into, { ...counted, [measure]: 0 }, measure);
  const { received, lost } = madeOf(rows, gone, measure);
  const stated = into.length > 0 ? null : lot[measure] === null ? null : lot[measure] - lost;
  return {
    lot,
    measure,
    received,
    lost,
    gone,
    back,
    count: counted === null || amount === null ? null : { amount, at: counted.at, came: came ?? 0 },
    had: { amount: thereWas(stated, into, last, measure), at: last?.at ?? '' },
  };
}

/**
 * What there was in all, and what was lost in making it: what went in by the time that it was weighed, less what had been taken of it by then, and less what it
 * weighed. Where it weighed more, that is how much was made.
 */
function madeOf({ lot, weighed, into = [] }: Rows, gone: readonly GoneFrom[], measure: Measure): Pick<Account, 'received' | 'lost'> {
  if (measure === 'pieces') return { received: lot.pieces, lost: 0 };
  if (!weighed || weighed.mg === null) return { received: lot.mg ?? lot.outMg, lost: Math.max(0, lot.lostMg ?? 0) };
  const taken = sumOf(gone.filter((g) => !g.possible && g.at <= weighed.at));
  const there = thereWas(null, into, weighed, 'mg');
  if (lot.mg === null || lot.lostMg === null) return { received: there === null ? null : there + taken, lost: 0 };
  const lost = lot.lostMg - taken;
  return { received: lot.mg + Math.max(0, -lost), lost: Math.max(0, lost) };
}

export const sumOf = (some: readonly { readonly amount: number | null }[]): number =>
  some.reduce((total, one) => total + (one.amount ?? 0), 0);

const lastOf = <T extends { readonly at: string }>(some: readonly T[]): T | undefined =>
  some.reduce<T | undefined>((last, one) => (last && last.at > one.at ? last : one), undefined);
