import { compare, fraction, minus, nearest, over, ratio, sumOf, times, zero, type Fraction } from './fraction.js';

/**
 * Divides a whole number by weights so that the parts sum exactly to it: largest remainder. A tie goes to the heavier line, then to the
 * earlier one. Each part is less than 1 from its exact share. Weights are zero or more and not all zero.
 */
export function apportion(whole: number, weights: readonly Fraction[]): number[] {
  const total = sumOf(weights);
  if (total.num === 0n) return weights.map(() => 0);
  const exact = weights.map((weight) => over(times(weight, { num: BigInt(whole), den: 1n }), total));
  const parts = exact.map(({ num, den }) => Number(num / den));
  const left = whole - parts.reduce((sum, part) => sum + part, 0);
  const byRemainder = exact
    .map((share, index) => ({ index, weight: weights[index] ?? zero, rest: ratio(share.num % share.den, share.den) }))
    .sort((a, b) => compare(b.rest, a.rest) || compare(b.weight, a.weight) || a.index - b.index);
  for (const { index } of byRemainder.slice(0, left)) parts[index] = (parts[index] ?? 0) + 1;
  return parts;
}

/** A line whose weight is exact. */
export interface Weighed {
  readonly weight: Fraction;
  readonly flour: boolean;
}

/** The flours' share of a hundred is divided in thousandths of a percent. */
const steps = 1000;

/**
 * Baker's percentages to 0.001 %: the flours sum to exactly 100, the others to their rounded total. Null where nothing is flour.
 */
export function bakersPercents(lines: readonly Weighed[]): { percents: number[]; totalPercent: number } | null {
  const flour = sumOf(lines.filter((line) => line.flour).map((line) => line.weight));
  if (flour.num === 0n) return null;
  const rest = minus(sumOf(lines.map((line) => line.weight)), flour);
  const restSteps = Number(nearest(times(over(rest, flour), fraction(100 * steps))));
  const masked = (ofFlour: boolean) => lines.map((line) => (line.flour === ofFlour ? line.weight : zero));
  const flours = apportion(100 * steps, masked(true));
  const others = apportion(restSteps, masked(false));
  return {
    percents: lines.map((_, index) => ((flours[index] ?? 0) + (others[index] ?? 0)) / steps),
    totalPercent: (100 * steps + restSteps) / steps,
  };
}
