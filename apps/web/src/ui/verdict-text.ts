import { canonical, canonicalOf, unit as units } from '@bakehouse/kernel';
import { phrase, type Limit, type Verdict } from '@bakehouse/records';

/** What a verdict was about: the value in thousandths of its unit, and the limit that it was judged by. */
export interface JudgedValue {
  readonly milli: number | null;
  readonly limit: Limit | null;
}

/** A verdict in words. Outside its limit, a value is too low, too high or too long, where its limit says which. */
export function verdictText(verdict: Verdict, value?: JudgedValue): string {
  return (verdict === 'outside' && value ? sideOf(value) : undefined) ?? phrase(`verdict.${verdict}`);
}

function sideOf({ milli, limit }: JudgedValue): string | undefined {
  if (milli === null || limit === null || limit.type === 'yes') return undefined;
  if (limit.type === 'elapsed') return 'too long';
  if (limit.min !== null && milli < canonical(limit.min, limit.unit)) return 'too low';
  return limit.max !== null && milli > canonical(limit.max, limit.unit) ? 'too high' : undefined;
}

/** The same from a figure as it was read. */
export function judgedValue(figure: string | null, unit: string | null, limit: Limit | null): JudgedValue {
  const known = units.safeParse(unit).data;
  return { milli: figure === null || known === undefined ? null : (canonicalOf({ figure, unit: known }) ?? null), limit };
}
