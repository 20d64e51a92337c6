import { refuse, type Outcome } from '@bakehouse/kernel';
import * as z from 'zod';
import { constantsFor, type ChartConstants } from './constants.js';
import { farthest, longestSeries, meanOf } from './series.js';
import type { Fields } from '../spellings.js';

const size = 'from 2 to 25 values in each subgroup';

const most = 'at least 2 subgroups, at most 1,000,000 values in all';

/** Subgroups in the order they were taken, each of the same size; stops at the first bad one. */
export const subgroupList: z.ZodType<number[][]> = z
  .any()
  .superRefine((raw: unknown, context) => {
    const fault = faultIn(raw);
    if (fault !== null) context.addIssue({ code: 'custom', path: [...fault.path], message: fault.message });
  })
  .meta({
    description: 'subgroups in the order they were taken, all of one size from 2 to 25, all in one unit; or values with subgroupSize',
    type: 'array',
    minItems: 2,
    maxItems: longestSeries / 2,
    items: { type: 'array', minItems: 2, maxItems: 25, items: { type: 'number', minimum: -farthest, maximum: farthest } },
  });

function faultIn(raw: unknown): { path: readonly number[]; message: string } | null {
  if (!Array.isArray(raw)) return { path: [], message: 'a list of subgroups' };
  if (raw.length < 2 || raw.length > longestSeries / 2) return { path: [], message: most };
  for (let i = 0; i < raw.length; i++) {
    const subgroup: unknown = raw[i];
    if (!Array.isArray(subgroup) || subgroup.length < 2 || subgroup.length > 25)
      return { path: [i], message: `a list of numbers, ${size}` };
    const bad = subgroup.findIndex((figure: unknown) => !(typeof figure === 'number' && Math.abs(figure) <= farthest));
    if (bad !== -1) return { path: [i, bad], message: 'a finite number, from -1e15 to 1e15' };
  }
  return null;
}

/** Subgroups under the name of values, or single values with the size of a subgroup, cut in the order they were taken. */
export function subgrouped(raw: Fields): Fields {
  const { values, subgroupSize: n, ...rest } = raw;
  if (!Array.isArray(values) || 'subgroups' in raw) return raw;
  if (n === undefined) return Array.isArray(values[0]) ? { ...rest, subgroups: values } : raw;
  if (typeof n !== 'number' || !Number.isInteger(n) || n < 2 || n > 25 || values.length % n !== 0 || values.length > longestSeries)
    return raw;
  return { ...rest, subgroups: Array.from({ length: values.length / n }, (_, i) => values.slice(i * n, (i + 1) * n)) };
}

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
  if (!(meanSpread >= 1e-12))
    return refuse('unacceptable-value', 'subgroups', 'subgroups in which the values differ: with no spread there are no limits');
  return { ok: true, value: { constants, means, grandMean: meanOf(means), spreads, meanSpread } };
}

/** Places of the points strictly outside the band. */
export function outsideOf(points: readonly number[], { lower, upper }: { lower: number; upper: number }): number[] {
  return points.flatMap((point, index) => (point > upper || point < lower ? [index] : []));
}

/** Range of a few values: the largest minus the smallest. */
export function rangeOf(values: readonly number[]): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}
