import * as z from 'zod';
import { refuse, type Outcome } from '../../kernel/problems.js';
import { constantsFor, type ChartConstants } from './constants.js';
import { longestSeries, meanOf, reading } from './series.js';

const size = 'from 2 to 25 values in each subgroup';

/** Subgroups in the order they were taken, each of the same size. */
export const subgroupList = z
  .array(z.array(reading, { error: 'a list of numbers' }).min(2, size).max(25, size), { error: 'a list of subgroups' })
  .min(2, 'at least 2 subgroups')
  .max(longestSeries / 2, 'at most 1,000,000 values in all')
  .meta({ description: 'subgroups in the order they were taken, all of one size from 2 to 25, all in one unit' });

export const givenConstants = z.record(z.string(), z.number()).meta({ description: 'the factors that were used' });

export interface Subgrouped {
  readonly constants: ChartConstants;
  readonly means: number[];
  readonly grandMean: number;
  readonly spreads: number[];
  readonly meanSpread: number;
}

/** Means and a measure of spread of each subgroup; refuses unequal sizes, more than a million values, and no spread at all. */
export function summarise(subgroups: readonly (readonly number[])[], spreadOf: (values: readonly number[]) => number): Outcome<Subgrouped> {
  const n = subgroups[0]?.length ?? 0;
  const odd = subgroups.findIndex((values) => values.length !== n);
  if (odd >= 0) return refuse('unacceptable-value', `subgroups.${odd}`, `${n} values, as in the first subgroup`);
  const constants = constantsFor(n);
  if (constants === undefined) return refuse('unacceptable-value', 'subgroups.0', size);
  if (subgroups.length * n > longestSeries) return refuse('unacceptable-value', 'subgroups', 'at most 1,000,000 values in all');
  const means = subgroups.map(meanOf);
  const spreads = subgroups.map(spreadOf);
  const meanSpread = meanOf(spreads);
  if (!(meanSpread >= 1e-12)) return refuse('unacceptable-value', 'subgroups', 'subgroups in which the values differ: with no spread there are no limits');
  return { ok: true, value: { constants, means, grandMean: meanOf(means), spreads, meanSpread } };
}

/** Places of the points strictly outside the band. */
export function outsideOf(points: readonly number[], { lower, upper }: { lower: number; upper: number }): number[] {
  return points.flatMap((point, index) => (point > upper || point < lower ? [index] : []));
}

/** Range of a few values: the largest less the smallest. */
export function rangeOf(values: readonly number[]): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}
