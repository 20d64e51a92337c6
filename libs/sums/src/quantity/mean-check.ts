import type { Plan } from './sampling-plan.js';
import { studentQuantile } from './student-t.js';
import { exactSum, Exact } from './tolerable-error.js';
import { deviationOf } from '../statistics/series.js';

export interface MeanCheck {
  readonly n: number;
  readonly mean: number;
  readonly s: number | null;
  readonly t: number | null;
  readonly limit: number | null;
  readonly printed: number | null;
  readonly printedDisagrees: boolean;
  readonly verdict: 'accept' | 'reject' | 'incomplete';
}

// Factors printed in Sch. 2 paras 4.5 and 4.6, t(0.995, n − 1)/√n to three decimals; the verdict uses the formula of para 4.1.
const printedFactors = new Map([
  [20, 0.64],
  [30, 0.503],
  [50, 0.379],
]);

/**
 * Mean against nominal − t(0.995, n − 1)·s/√n, or against nominal itself when the whole of a batch below 100 is weighed.
 * Para 4.1 says greater than the limit, 4.5 and 4.6 say not less: the latter, printed as the criteria, is used. SI 2006/659 Sch. 2.
 */
export function judgeMean(grams: readonly number[], nominalGrams: number, plan: Plan | undefined): MeanCheck {
  const n = grams.length;
  const exact = exactSum(grams).div(n);
  const mean = exact.toNumber();
  const s = n < 2 ? null : deviationOf(grams, mean);
  const whole = plan?.kind === 'whole-batch';
  const t = whole || s === null ? null : studentQuantile(0.995, n - 1);
  const limit = whole ? nominalGrams : t === null || s === null ? null : nominalGrams - (t / Math.sqrt(n)) * s;
  const factor = whole ? undefined : printedFactors.get(n);
  const printed = factor === undefined || s === null ? null : nominalGrams - factor * s;
  const passes = (bound: number | null): boolean => bound !== null && exact.gte(new Exact(bound));
  const enough = plan !== undefined && n >= plan.meanSample && limit !== null;
  return {
    n,
    mean,
    s,
    t,
    limit,
    printed,
    printedDisagrees: enough && printed !== null && passes(printed) !== passes(limit),
    verdict: enough ? (passes(limit) ? 'accept' : 'reject') : 'incomplete',
  };
}
