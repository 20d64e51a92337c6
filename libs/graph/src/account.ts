import { balanceOf, type Balance, type Movement } from './balance.js';

/** What is known of one lot's comings and goings, as rows give it. */
export interface LotAccountRows {
  readonly lot: { readonly type: string; readonly mg: number | null; readonly pieces: number | null };
  readonly uses: readonly {
    readonly mg: number | null;
    readonly pieces: number | null;
    readonly how: string;
    readonly type: string;
    readonly certain: boolean;
    readonly at: string;
  }[];
  readonly departures: readonly {
    readonly channel: string;
    readonly mg: number | null;
    readonly pieces: number | null;
    readonly how: string;
    readonly certain: boolean;
    readonly at: string;
  }[];
  readonly returned: readonly {
    readonly mg: number | null;
    readonly pieces: number | null;
    readonly disposition: string;
    readonly at: string;
  }[];
  readonly count: { readonly mg: number | null; readonly pieces: number | null; readonly at: string } | null;
}

/** A lot's balance in its own measure: pieces for batches and runs, milligrams otherwise. */
export function accountOf({ lot, uses, departures, returned, count }: LotAccountRows): Balance {
  const measure = lot.type === 'batch' || (lot.mg === null && lot.pieces !== null) ? 'pieces' : 'mg';
  const gone: (Movement & { at: string })[] = [
    ...uses.map((u) => ({ type: u.type, amount: u[measure], how: u.how, possible: !u.certain, at: u.at })),
    ...departures.map((d) => ({ type: d.channel, amount: d[measure], how: d.how, possible: !d.certain, at: d.at })),
  ];
  // What came back and went straight on to waste, rework or feed did not come back into the account.
  const back = returned.filter((c) => c.disposition === 'on-hand').map((c) => ({ amount: c[measure], at: c.at }));
  const sum = (some: readonly { readonly amount: number | null }[]): number => some.reduce((total, one) => total + (one.amount ?? 0), 0);
  const amount = count?.[measure] ?? null;
  const after = <T extends { readonly at: string }>(some: readonly T[]): T[] => some.filter((one) => count !== null && one.at > count.at);
  const goneAfter = sum(after(gone.filter((g) => !g.possible))) - sum(after(back));
  return balanceOf({ measure, received: lot[measure], gone, returned: sum(back), counted: amount === null ? null : { amount, goneAfter } });
}
