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
  /** What was declared to have been lost in making it: evaporated, dried. It is neither there nor missing. */
  readonly lost: number;
  /** The last count, and what left after it less what came back after it; null where nobody has counted. */
  readonly counted: { readonly amount: number; readonly goneSince: number; readonly at: string } | null;
  /** What is left; null where something came or went of which nobody knows how much. Then it is at most so much, where only something went. */
  readonly left: { readonly amount: number | null; readonly atMost: number | null };
  /** Whether something without an amount went, or came back, that a count did not find afterwards. */
  readonly notKnown?: { readonly gone: boolean; readonly back: boolean };
  /** How much more of what is possible may have gone, and how much less may be left, if the doubts fall out the other way. None: what is possible. */
  readonly doubt?: { readonly gone: number; readonly left: number };
}

export interface Balance {
  readonly measure: Measure;
  readonly received: number | null;
  /** At least so much where `withoutAmount` says that something went without an amount. */
  readonly gone: number;
  /** How many entries say that something went, and not how much. */
  readonly withoutAmount: number;
  /** What may have gone besides, as one of several lots: at most so much. */
  readonly perhaps: number;
  readonly lost: number;
  readonly onHand: { readonly amount: number; readonly by: 'count' | 'records' } | null;
  /** Where nobody knows what is left, it is no more than this; null where it is known, or nothing bounds it. */
  readonly atMost: number | null;
  readonly counted: BalanceInput['counted'];
  /** Positive: not found; at most so much where something went without an amount. Negative: more is accounted for than there ever was. Null where it cannot be said. */
  readonly unaccounted: number | null;
  /** Accounted for, in hundredths of a percent, rounded half up: 9928 is 99.28 %. 11,200 is a finding, not a success. */
  readonly accountedBasisPoints: number | null;
  readonly finding: BalanceFinding;
  /** Where to look first, the likeliest on top: what was guessed, then by recipe, then weighed in many small lots. */
  readonly likelyCauses: readonly { readonly cause: BalanceCause; readonly amount: number; readonly times: number }[];
}

/**
 * The mass balance: received or made = gone + lost + on hand ± not accounted. What may have gone is taken as far as it is missing, and no further.
 * 100 % is the only good answer; nothing is hidden. What has no amount makes no balance: it is never taken for nothing.
 */
export function balanceOf(input: BalanceInput): Balance {
  const { measure, received, lost, counted, left } = input;
  const certain = input.gone.filter((m) => !m.possible);
  const gone = certain.reduce((sum, m) => sum + (m.amount ?? 0), 0) - input.returned;
  const perhaps = input.gone.reduce((sum, m) => sum + (m.possible ? (m.amount ?? 0) : 0), 0);
  const withoutAmount = certain.filter((m) => m.amount === null).length;
  const onHand = left.amount === null ? null : ({ amount: left.amount, by: counted ? 'count' : 'records' } as const);
  const base = {
    measure,
    received,
    gone,
    withoutAmount,
    perhaps,
    lost,
    onHand,
    atMost: left.atMost,
    counted,
    likelyCauses: causesOf(certain),
  };
  const notSaid = { ...base, unaccounted: null, accountedBasisPoints: null, finding: 'unknown-amounts' } as const;
  if (received === null) return notSaid;
  const unknown = onHand === null || withoutAmount > 0 || input.gone.some((m) => m.possible);
  const difference = received - gone - lost - (counted ? counted.amount - counted.goneSince : 0);
  if (!counted && difference >= 0) return { ...notSaid, finding: unknown ? 'unknown-amounts' : 'nobody-counted' };
  // More went since the count than was found then: whatever was missing before it, the count or what went is wrong.
  const short = onHand !== null && onHand.amount + (input.doubt?.left ?? 0) < 0;
  if (counted && short && difference >= 0) return { ...notSaid, unaccounted: onHand.amount, finding: 'more-than-there-was' };
  const unaccounted = nearestToNothing(difference, input.doubt ?? { gone: perhaps, left: 0 });
  if (!isSaid(unaccounted, onHand !== null, input.notKnown)) return notSaid;
  return {
    ...base,
    unaccounted,
    accountedBasisPoints: received === 0 ? null : Math.round(((received - unaccounted) * 10_000) / received),
    finding: unaccounted === 0 ? 'none' : unaccounted > 0 ? 'not-all-accounted' : 'more-than-there-was',
  };
}

/** Nothing is said to add up that has an amount missing, nor to be too much where what came back may explain it. */
function isSaid(unaccounted: number, leftIsKnown: boolean, notKnown: BalanceInput['notKnown']): boolean {
  if (unaccounted > 0) return true;
  if (notKnown?.back === true) return false;
  return unaccounted < 0 || (leftIsKnown && notKnown?.gone !== true);
}

const nearestToNothing = (difference: number, doubt: { readonly gone: number; readonly left: number }): number =>
  difference > 0 ? Math.max(0, difference - doubt.gone) : Math.min(0, difference + doubt.left);

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
