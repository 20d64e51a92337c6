import { how } from '@bakehouse/kernel';
import type { BalanceCause, BalanceFinding, Measure } from '@bakehouse/records';

/** One thing that came into or left a lot's account, in the lot's own measure: milligrams, or pieces. */
export interface Movement {
  readonly type: string;
  readonly amount: number | null;
  readonly how: string;
  readonly possible: boolean;
}

export interface BalanceInput {
  readonly measure: Measure;
  /** What there was: received, made or counted out. Null where the papers never said. */
  readonly received: number | null;
  /** What is known to have gone: used, sent out, wasted, sampled, donated, rejected. */
  readonly gone: readonly Movement[];
  readonly returned: number;
  /** The last count, and what left after it less what came back after it; null where nobody has counted. */
  readonly counted: { readonly amount: number; readonly goneAfter: number } | null;
}

export interface Balance {
  readonly measure: Measure;
  readonly received: number | null;
  readonly gone: number;
  readonly onHand: { readonly amount: number; readonly by: 'count' | 'records' } | null;
  /** Positive: not found. Negative: more is accounted for than there ever was. Null where it cannot be said. */
  readonly unaccounted: number | null;
  /** Accounted for, in hundredths of a percent, rounded half up: 9928 is 99.28 %. 11,200 is a finding, not a success. */
  readonly accountedBasisPoints: number | null;
  readonly finding: BalanceFinding;
  /** Where to look first, the likeliest on top: what was guessed, then by recipe, then weighed in many small lots. */
  readonly likelyCauses: readonly { readonly cause: BalanceCause; readonly amount: number; readonly times: number }[];
}

/** The mass balance of one lot: what there was against where it went. 100 % is the only good answer; nothing is hidden. */
export function balanceOf(input: BalanceInput): Balance {
  const certain = input.gone.filter((m) => !m.possible);
  const gone = certain.reduce((sum, m) => sum + (m.amount ?? 0), 0) - input.returned;
  const unknown = certain.some((m) => m.amount === null) || input.gone.some((m) => m.possible);
  const onHand = onHandOf(input, gone);
  const base = { measure: input.measure, received: input.received, gone, onHand, likelyCauses: causesOf(certain) };
  if (input.received === null || onHand === null)
    return { ...base, unaccounted: null, accountedBasisPoints: null, finding: 'unknown-amounts' };
  if (onHand.by === 'records' && onHand.amount >= 0)
    return { ...base, unaccounted: null, accountedBasisPoints: null, finding: unknown ? 'unknown-amounts' : 'nobody-counted' };
  const accounted = gone + (onHand.by === 'count' ? onHand.amount : 0);
  const unaccounted = input.received - accounted;
  const accountedBasisPoints = input.received === 0 ? null : Math.round((accounted * 10_000) / input.received);
  return {
    ...base,
    unaccounted,
    accountedBasisPoints,
    finding: unaccounted === 0 ? 'none' : unaccounted > 0 ? 'not-all-accounted' : 'more-than-there-was',
  };
}

function onHandOf({ received, counted }: BalanceInput, gone: number): Balance['onHand'] {
  if (counted) return { amount: counted.amount - counted.goneAfter, by: 'count' };
  return received === null ? null : { amount: received - gone, by: 'records' };
}

/** Not known before guessed before by recipe before weighed: common practice, no source. */
const leastSure: readonly BalanceCause[] = ['not-known', 'estimated', 'by-recipe', 'label', 'weighed', 'counted'];

function causesOf(gone: readonly Movement[]): Balance['likelyCauses'] {
  const causes = new Map<BalanceCause, { cause: BalanceCause; amount: number; times: number }>();
  for (const m of gone) {
    const cause = m.amount === null ? 'not-known' : how.parse(m.how);
    const before = causes.get(cause) ?? { cause, amount: 0, times: 0 };
    causes.set(cause, { cause, amount: before.amount + (m.amount ?? 0), times: before.times + 1 });
  }
  return [...causes.values()].sort((a, b) => leastSure.indexOf(a.cause) - leastSure.indexOf(b.cause) || b.times - a.times);
}
