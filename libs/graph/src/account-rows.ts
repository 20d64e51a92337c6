import type { Row } from '@bakehouse/records';

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
  /** By a signed decision: so much, or all that was left then, after which there is nothing. */
  readonly decided?: Row<'departure'>['decided'];
}

/** What is known of one lot's comings and goings, as rows give it. */
export interface LotAccountRows {
  readonly lot: {
    readonly id: string;
    readonly type: string;
    readonly mg: number | null;
    readonly pieces: number | null;
    /** What came out of it in the end, and how much less that was than what had gone in by then; null where nobody weighed. */
    readonly outMg: number | null;
    readonly lostMg: number | null;
  };
  /** What went into a vessel's content or a make, each amount once: these have no amount of their own. */
  readonly into?: readonly Amount[];
  readonly uses: readonly (Gone & { readonly type: string })[];
  readonly departures: readonly (Gone & { readonly channel: string })[];
  readonly returned: readonly (Amount & { readonly disposition: string })[];
  readonly count: Amount | null;
  /** What a make weighed when it came to its end. */
  readonly weighed?: Amount | null;
  /** The same in a shop of the house, where some was sent there: it leaves the one and comes to the other, and counts once. */
  readonly shop?: Pick<LotAccountRows, 'departures' | 'returned' | 'count'>;
}
