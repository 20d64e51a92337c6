import type { Measure } from '@bakehouse/records';

interface Amount {
  readonly mg: number | null;
  readonly pieces: number | null;
  readonly at: string;
}
export interface Gone extends Amount {
  readonly how: string;
  readonly certain: boolean;
  /** The group of lots that it was one of, or more; nobody knows which. `among`: how many lots that group has, wherever they are. */
  readonly anyOf: string | null;
  readonly among: number;
}

/** What is known of one lot's comings and goings, as rows give it. */
export interface LotAccountRows {
  readonly lot: {
    readonly id: string;
    readonly type: string;
    readonly mg: number | null;
    readonly pieces: number | null;
    /** What came out of it in the end, and how much less that was than what went in; null where nobody weighed. */
    readonly outMg: number | null;
    readonly lostMg: number | null;
  };
  readonly uses: readonly (Gone & { readonly type: string })[];
  readonly departures: readonly (Gone & { readonly channel: string })[];
  readonly returned: readonly (Amount & { readonly disposition: string })[];
  readonly count: Amount | null;
  /** The same in a shop of the house, where some was sent there: it leaves the one and comes to the other, and counts once. */
  readonly shop?: Pick<LotAccountRows, 'departures' | 'returned' | 'count'>;
}

/** Whether everything that surely came or went since the last count has a figure: otherwise nobody can say what is left. */
export function leftIsKnown({ uses, departures, returned, count, shop }: Omit<LotAccountRows, 'lot'>, measure: Measure): boolean {
  const since = count === null || count[measure] === null ? null : count.at;
  const known = (m: Amount): boolean => m[measure] !== null || (since !== null && m.at <= since);
  const gone = [...uses, ...departures].filter((g) => g.certain);
  return [...gone, ...returned].every(known) && (shop === undefined || leftIsKnown({ uses: [], ...shop }, measure));
}
