import { grouped, sumOfKnown } from '@bakehouse/kernel';
import { comesBack, measureOf, type Measure } from '@bakehouse/records';
import { balanceOf, type Balance, type Movement } from './balance.js';
import type { Gone, LotAccountRows } from './account-rows.js';
import { sharedOut, type GroupRooms } from './groups.js';

/** One line of a balance: the lots that it is about, more than one where something left as one of them, or several. */
export interface AccountLine {
  readonly lots: readonly string[];
  readonly balance: Balance;
}

/**
 * A lot's balance in its own measure: pieces for batches and runs, milligrams otherwise. What went as one of several lots, of which it is known how much
 * each had (`groups`), surely went of this one as far as the others had too little, and perhaps as far as this one had enough.
 */
export function accountOf(rows: LotAccountRows, groups: ReadonlyMap<string, GroupRooms> = new Map()): Balance {
  const accounts = accountsIn(rows).map((account) => ({
    ...account,
    gone: account.gone.flatMap((g): readonly Account['gone'][number][] => {
      const of = g.anyOf === null ? undefined : groups.get(g.anyOf);
      if (of?.measure !== account.measure || g.amount === null) return [g];
      const { least, most } = sharedOut(of, rows.lot.id);
      const surely = least === 0 ? [] : [{ ...g, amount: least, possible: false, group: null, anyOf: null }];
      return [...surely, ...(most === least ? [] : [{ ...g, amount: most - least }])];
    }),
  }));
  return lineOf(accounts);
}

/**
 * The balances of these lots, one line for all that something left as one of: what went is one amount, and lots that are each short of it are short of
 * it once. It is certain in that line where all the lots it was one of are there.
 */
export function accountsTogether(rows: readonly LotAccountRows[]): AccountLine[] {
  const accounts = rows.flatMap(accountsIn);
  const ofLot = grouped(accounts, (a) => a.lot.id);
  const byGroup = grouped(
    accounts.flatMap((account) => account.gone.flatMap(({ group }) => (group === null ? [] : [{ group, account }]))),
    (g) => g.group,
  );
  const seen = new Set<Account>();
  return accounts.flatMap((account) => {
    if (seen.has(account)) return [];
    const joined = [...(ofLot.get(account.lot.id) ?? [])];
    for (const one of joined) seen.add(one);
    for (const one of joined) {
      for (const { group } of one.gone) {
        for (const { account: other } of group === null ? [] : (byGroup.get(group) ?? [])) {
          if (seen.has(other)) continue;
          for (const own of ofLot.get(other.lot.id) ?? []) {
            seen.add(own);
            joined.push(own);
          }
        }
      }
    }
    return [{ lots: [...new Set(joined.map((a) => a.lot.id))], balance: lineOf(joined) }];
  });
}

interface Account {
  readonly lot: LotAccountRows['lot'];
  readonly measure: Measure;
  readonly gone: readonly (Movement & {
    readonly at: string;
    readonly group: string | null;
    readonly anyOf: string | null;
    readonly among: number;
  })[];
  readonly back: readonly { readonly amount: number | null; readonly at: string }[];
  readonly count: { readonly amount: number; readonly at: string } | null;
}

/**
 * One account where it was made or came in, and one in the shop, which had nothing of it before anything was sent there. Where only one of the two has counted,
 * the other's starts from what it had at first, so that what the one misses is said.
 */
function accountsIn({ shop, ...made }: LotAccountRows): Account[] {
  if (!shop) return [accountIn(made)];
  const measure = measureOf(made.lot);
  const first = made.lot[measure];
  const [inAll, none] = [
    { mg: null, pieces: null, [measure]: first, at: '' },
    { mg: 0, pieces: 0, at: '' },
  ];
  return [
    accountIn({ ...made, count: made.count ?? (shop.count && first !== null ? inAll : null) }),
    accountIn({ lot: { ...made.lot, [measure]: 0, lostMg: null }, uses: [], ...shop, count: shop.count ?? (made.count && none) }),
  ];
}

function accountIn({ lot, uses, departures, returned, count }: Omit<LotAccountRows, 'shop'>): Account {
  const measure = measureOf(lot);
  const amount = count?.[measure] ?? null;
  const went = (type: string, g: Gone): Account['gone'][number] => ({
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
  return {
    lot,
    measure,
    gone: [...uses.map((u) => went(u.type, u)), ...departures.map((d) => went(d.channel, d))],
    // What came back and went straight on to waste or feed did not come back into the account.
    back: returned.filter((c) => comesBack(c.disposition)).map((c) => ({ amount: c[measure], at: c.at })),
    count: count === null || amount === null ? null : { amount, at: count.at },
  };
}

const sumOf = (some: readonly { readonly amount: number | null }[]): number => some.reduce((total, one) => total + (one.amount ?? 0), 0);

/** One balance over accounts that share what left as one of them. It is counted where every one of its lots was. */
function lineOf(accounts: readonly Account[]): Balance {
  const counts = accounts.flatMap((a) => (a.count === null ? [] : [a.count]));
  const counted = counts.length === accounts.length;
  const [first, last] = [least(counts.map((c) => c.at)), most(counts.map((c) => c.at))];
  const own = accounts.flatMap((a) => a.gone.filter((g) => g.group === null));
  const shared = [
    ...grouped(
      accounts.flatMap((a) => a.gone.filter((g) => g.group !== null)),
      (g) => g.group,
    ).values(),
  ].flatMap((of) => of.slice(0, 1).map((one) => ({ ...one, possible: of.length < one.among })));
  const sure = shared.filter((g) => !g.possible);
  const since = accounts.map(({ gone, back, count }) => {
    const after = <T extends { readonly at: string }>(some: readonly T[]): T[] => some.filter((one) => count !== null && one.at > count.at);
    return sumOf(after(gone.filter((g) => g.group === null && !g.possible))) - sumOf(after(back));
  });
  return balanceOf({
    measure: accounts[0]?.measure ?? 'mg',
    received: sumOfKnown(accounts.map(({ lot, measure }) => lot[measure] ?? (measure === 'mg' ? lot.outMg : null))),
    gone: [...own, ...shared],
    returned: sumOf(accounts.flatMap((a) => a.back)),
    lost: accounts.reduce((total, { lot, measure }) => total + (measure === 'mg' ? Math.max(0, lot.lostMg ?? 0) : 0), 0),
    counted: !counted
      ? null
      : { amount: sumOf(counts), goneSince: since.reduce((a, b) => a + b, 0) + sumOf(sure.filter((g) => g.at > last)), at: last },
    doubt: counted
      ? {
          // After every count it is off the account and off what is left alike.
          gone: sumOf([...own, ...shared].filter((g) => g.possible && g.at <= last)),
          // Between two counts it was gone by the one, or came off what the other had found.
          left: sumOf(sure.filter((g) => g.at > first && g.at <= last)),
        }
      : { gone: 0, left: 0 },
  });
}

const least = (list: readonly string[]): string => list.reduce((a, b) => (b < a ? b : a), list[0] ?? '');
const most = (list: readonly string[]): string => list.reduce((a, b) => (b > a ? b : a), '');
