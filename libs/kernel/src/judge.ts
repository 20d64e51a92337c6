import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { convertExact, type Unit } from './units.js';

export const guardedVerdict = z.enum(['within', 'outside', 'unsure']);
export type GuardedVerdict = z.infer<typeof guardedVerdict>;
export interface Limit {
  readonly min?: string | null;
  readonly max?: string | null;
  readonly unit: Unit;
}

/**
 * Judges a reading against a limit, in the limit's unit and in exact decimals. A limit belongs to what it allows; a reading
 * closer to a limit than `halfWidth` (a difference in the limit's unit, zero or more) is `unsure`, on either side of it.
 * A limit with neither end, or a figure that is no finite number, is `unsure`: never `within`. Throws where the units measure different things.
 */
export function judge(value: { figure: string; unit: Unit }, limit: Limit, halfWidth: string): GuardedVerdict {
  const reading = convertExact(value.figure, value.unit, limit.unit);
  const half = new Decimal(halfWidth);
  const min = end(limit.min);
  const max = end(limit.max);
  const ends = [min, max].filter((e) => e !== null);
  if (ends.length === 0 || ![reading, half, ...ends].every((d) => d.isFinite()) || half.isNegative()) return 'unsure';
  if (ends.some((e) => reading.minus(e).abs().lt(half))) return 'unsure';
  return (min !== null && reading.lt(min)) || (max !== null && reading.gt(max)) ? 'outside' : 'within';
}

function end(figure: string | null | undefined): Decimal | null {
  return figure === null || figure === undefined ? null : new Decimal(figure);
}
