import { grouped, sumOfKnown } from '@bakehouse/kernel';
import { balanceOf, type Balance, type BalanceInput } from './balance.js';
import type { LotAccountRows } from './account-rows.js';
import { sharedOut, type GroupRooms } from './groups.js';
import { accountsIn, sumOf, type Account, type GoneFrom } from './one-account.js';

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
  const since = accounts.map(({ gone, back, count }) =>
    count === null ? 0 : sumOf(surely(gone).filter((g) => g.at > count.at)) - sumOf(back.filter((b) => b.at > count.at)) - count.came,
  );
  return balanceOf({
    measure: accounts[0]?.measure ?? 'mg',
    received: sumOfKnown(accounts.map((a) => a.received)),
    gone: [...own, ...shared],
    returned: sumOf(accounts.flatMap((a) => a.back)),
    lost: accounts.reduce((total, a) => total + a.lost, 0),
    counted: !counted
      ? null
      : { amount: sumOf(counts), goneSince: since.reduce((a, b) => a + b, 0) + sumOf(sure.filter((g) => g.at > last)), at: last },
    left: leftIn(counted || accounts.every((a) => a.lot.id === accounts[0]?.lot.id) ? accounts : accounts.map(fromTheBeginning), sure),
    notKnown: {
      gone: [...accounts.flatMap((a) => notKnownBy(a, surely(a.gone))), ...sure.filter((g) => g.amount === null)].length > 0,
      back: accounts.flatMap((a) => notKnownBy(a, a.back)).length > 0,
    },
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

const surely = (gone: readonly GoneFrom[]): GoneFrom[] => gone.filter((g) => g.group === null && !g.possible);

type Timed = { readonly amount: number | null; readonly at: string };
/** What has no amount and came or went before the count, so that it is not in what was found then. */
const notKnownBy = ({ count }: Account, some: readonly Timed[]): Timed[] =>
  some.filter((one) => one.amount === null && (count === null || one.at <= count.at));

/** Where not all of several lots were counted, what went as one of them may have gone before a count or after it: then none of the counts says what is left. */
const fromTheBeginning = (a: Account): Account => ({ ...a, had: { amount: a.received === null ? null : a.received - a.lost, at: '' } });

/** What is left by what is known of all of it last: what went or came back since without an amount makes it less than that, or nobody knows. */
function leftIn(accounts: readonly Account[], sure: readonly GoneFrom[]): BalanceInput['left'] {
  const had = sumOfKnown(accounts.map((a) => a.had.amount));
  if (had === null) return { amount: null, atMost: null };
  const last = most(accounts.map((a) => a.had.at));
  const since = <T extends Timed>({ had: { at } }: Account, some: readonly T[]): T[] => some.filter((one) => one.at > at);
  const gone = [...accounts.flatMap((a) => since(a, surely(a.gone))), ...sure.filter((g) => g.at > last)];
  const back = accounts.flatMap((a) => since(a, a.back));
  const amount = had - sumOf(gone) + sumOf(back);
  const knows = (some: readonly Timed[]): boolean => some.every((one) => one.amount !== null);
  if (knows(gone) && knows(back)) return { amount, atMost: null };
  return { amount: null, atMost: knows(back) && amount >= 0 ? amount : null };
}

const least = (list: readonly string[]): string => list.reduce((a, b) => (b < a ? b : a), list[0] ?? '');
const most = (list: readonly string[]): string => list.reduce((a, b) => (b > a ? b : a), '');
