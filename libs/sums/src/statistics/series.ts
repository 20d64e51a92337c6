import * as z from 'zod';
import { numberList } from '../number-list.js';

/** The largest series that is taken: enough for years of readings, small enough to answer immediately. */
export const longestSeries = 1_000_000;
export const farthest = 1e15;

/** A finite reading. The bound keeps sums of squares of a full series far from overflow. */
export const reading = z
  .number({ error: 'a finite number' })
  .min(-farthest, 'a number from -1e15 to 1e15')
  .max(farthest, 'a number from -1e15 to 1e15');

const spreadText = 'a number above 0, from 1e-12 to 1e15';
/** A spread or a width: above zero, and not so small that dividing by it overflows. */
export const spread = z.number({ error: spreadText }).min(1e-12, spreadText).max(farthest, spreadText);

/** Readings in the order in which they were taken. */
export const series = (least: number) =>
  numberList({
    least,
    most: longestSeries,
    min: -farthest,
    max: farthest,
    list: 'a list of numbers',
    figure: 'a finite number, from -1e15 to 1e15',
    length: `at least ${least} ${least === 1 ? 'value' : 'values'}, at most 1,000,000`,
    description: 'readings in the order they were taken, all in one unit',
  });

export const band = z.object({ lower: z.number(), upper: z.number() });
export type Band = z.infer<typeof band>;

/** Arithmetic mean; sums differences from the first value, so that a large common offset costs no digits. NaN when empty. */
export function meanOf(values: readonly number[]): number {
  const origin = values[0] ?? Number.NaN;
  let sum = 0;
  for (const value of values) sum += value - origin;
  return origin + sum / values.length;
}

/** Sample standard deviation with n − 1, in two passes. NaN below two values. */
export function deviationOf(values: readonly number[], mean = meanOf(values)): number {
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  return Math.sqrt(squares / (values.length - 1));
}

/** Mean of the absolute differences between neighbours. NaN below two values. */
export function meanMovingRangeOf(values: readonly number[]): number {
  let sum = 0;
  let previous = values[0] ?? Number.NaN;
  for (const value of values) {
    sum += Math.abs(value - previous);
    previous = value;
  }
  return sum / (values.length - 1);
}

/** A figure for a sentence: six significant digits, no trailing zeros. */
export const shown = (value: number): string => String(Number(value.toPrecision(6)));

/** A count with its noun, for a sentence: "1 signal", "2 signals". */
export const counted = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;
