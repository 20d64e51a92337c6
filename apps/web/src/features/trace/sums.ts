import type { TraceView } from '@bakehouse/contracts';
import type { Measure } from '@bakehouse/records';
import { whole } from '../../shared/format';

type Line = TraceView['suspectBalances'][number];

/** One unit through a whole sum: grams stay grams. */
const said = (amount: number, measure: Measure): string =>
  measure === 'mg' ? `${grams.format(amount / 1000)} g` : `${whole(amount)} ${amount === 1 ? 'piece' : 'pieces'}`;
const grams = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 3 });

/** A balance as a sentence that adds up, with what is missing or too much in it. Where amounts are not known it says which, and no sum. */
export function sumOf({ balance: b }: Line): string | null {
  if (b.received === null) return null;
  const of = (amount: number, words: string): string => `${said(amount, b.measure)} ${words}`;
  const parts: [number, string][] = [
    [b.gone, 'used and dispatched'],
    [b.lost, 'lost in making it'],
    [b.onHand?.amount ?? 0, b.onHand?.by === 'count' ? 'counted here' : 'here by the records'],
    [Math.max(b.unaccounted ?? 0, 0), 'unaccounted'],
  ];
  const there = parts.filter(([amount]) => amount !== 0);
  const over = b.unaccounted !== null && b.unaccounted < 0 ? -b.unaccounted : 0;
  const sum = there.reduce((n, [amount]) => n + amount, 0) - over;
  const text = there.map(([amount, words]) => of(amount, words)).join(' + ');
  const percent = b.accountedBasisPoints === null ? '' : ` (${(b.accountedBasisPoints / 100).toFixed(2)} % accounted)`;
  if (b.withoutAmount > 0 || b.onHand === null || sum !== b.received)
    return `${of(b.received, 'received or made')}; of it ${text || 'nothing known'}${b.withoutAmount > 0 ? ', at least' : ''}. What is left is ${b.onHand === null ? 'not known' : 'not all known'}, so this is no whole sum.`;
  return `${of(b.received, 'received or made')} = ${text}${over > 0 ? ` − ${of(over, 'more than there was')}` : ''}${percent}.`;
}
