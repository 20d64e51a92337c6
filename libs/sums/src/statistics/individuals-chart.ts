import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { movingRangeFactors } from './constants.js';
import { nelsonSignals, routineRules, ruleList, signal, strictness } from './nelson.js';
import { band, meanMovingRangeOf, meanOf, reading, series, shown, spread } from './series.js';
import { defineCalculation, standardCaution } from '../calculation.js';

/** Indices of moving ranges above the limit; the range at index i is between values i − 1 and i. */
function rangesAbove(values: readonly number[], limit: number): number[] {
  const found: number[] = [];
  let previous = values[0] ?? Number.NaN;
  let index = 0;
  for (const value of values) {
    if (Math.abs(value - previous) > limit) found.push(index);
    previous = value;
    index += 1;
  }
  return found;
}

/** Chart of single values with limits from the mean moving range. NIST/SEMATECH e-Handbook 6.3.2.2. */
export const individualsChart = defineCalculation({
  name: 'individuals-chart',
  title: 'Control chart of single values',
  input: z.strictObject({
    values: series(2),
    centre: reading.optional().meta({ description: 'a centre known from earlier data; the mean of the values when left out' }),
    sigma: spread.optional().meta({ description: 'a sigma known from earlier data; from the mean moving range when left out' }),
    rules: ruleList.optional().meta({ description: 'numbers of Nelson’s tests, 1 to 8; tests 1 to 4 when left out' }),
  }),
  output: z.object({
    centre: z.number(),
    sigma: z.number(),
    limits: band.meta({ description: 'centre ± 3 sigma' }),
    meanMovingRange: z.number(),
    movingRange: z.object({
      centre: z.number(),
      limits: band,
      signals: z.array(z.int()).meta({ description: 'index of the later value of each range above its limit' }),
    }),
    points: z.array(z.number()),
    signals: z.array(signal),
  }),
  example: { values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1] },
  run({ values, centre: knownCentre, sigma: knownSigma, rules = [...routineRules] }) {
    const meanMovingRange = meanMovingRangeOf(values);
    const centre = knownCentre ?? meanOf(values);
    const sigma = knownSigma ?? meanMovingRange / movingRangeFactors.d2;
    if (!(sigma >= 1e-12))
      return refuse('unacceptable-value', 'values', 'values that are not all equal (or give sigma): with no spread there are no limits');
    const limits = { lower: centre - 3 * sigma, upper: centre + 3 * sigma };
    const rangeLimits = { lower: 0, upper: movingRangeFactors.D4 * movingRangeFactors.d2 * sigma };
    if (knownSigma === undefined) rangeLimits.upper = movingRangeFactors.D4 * meanMovingRange;
    const signals = nelsonSignals(values, centre, sigma, rules);
    return {
      ok: true,
      value: {
        centre,
        sigma,
        limits,
        meanMovingRange,
        movingRange: {
          centre: knownSigma === undefined ? meanMovingRange : movingRangeFactors.d2 * sigma,
          limits: rangeLimits,
          signals: rangesAbove(values, rangeLimits.upper),
        },
        points: values,
        signals,
        inputs: { values, centre: knownCentre ?? null, sigma: knownSigma ?? null, rules },
        explanation:
          `Centre ${shown(centre)}${knownCentre === undefined ? ' is the mean of the values' : ' as given'}; sigma ${shown(sigma)}` +
          `${knownSigma === undefined ? ` is the mean moving range ${shown(meanMovingRange)} divided by 1.128` : ' as given'}; ` +
          `the limits ${shown(limits.lower)} and ${shown(limits.upper)} are three sigma either side. Signals: ${signals.length}. ${strictness}`,
        source: 'NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2; signals by Nelson 1984',
        validRange:
          'independent values, roughly normal, in the order they were taken; limits from fewer than about 20 values are provisional',
        cautions: [
          'Control limits say what the process does, not what it should do: they are not specification or safety limits.',
          standardCaution,
        ],
      },
    };
  },
});
