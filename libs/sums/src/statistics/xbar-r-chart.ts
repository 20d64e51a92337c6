import * as z from 'zod';
import { nelsonSignals, routineRules, ruleList, signal, strictness } from './nelson.js';
import { band, shown } from './series.js';
import { givenConstants, outsideOf, rangeOf, subgrouped, subgroupList, summarise } from './subgroups.js';
import { defineCalculation, standardCaution } from '../calculation.js';

/** Charts of subgroup averages and ranges: x̄ ± A2·R̄, and D3·R̄ to D4·R̄. NIST/SEMATECH e-Handbook 6.3.2.1. */
export const xbarRChart = defineCalculation({
  name: 'xbar-r-chart',
  title: 'Control charts of averages and ranges',
  input: z.strictObject({
    subgroups: subgroupList,
    rules: ruleList.optional().meta({ description: 'numbers of Nelson’s tests for the averages, 1 to 8; tests 1 to 4 when left out' }),
  }),
  output: z.object({
    centre: z.number().meta({ description: 'mean of the subgroup averages' }),
    sigma: z.number().meta({ description: 'sigma of single values: mean range divided by d2' }),
    limits: band,
    points: z.array(z.number()).meta({ description: 'average of each subgroup' }),
    signals: z.array(signal).meta({ description: 'tests on the averages' }),
    range: z.object({
      centre: z.number(),
      limits: band,
      points: z.array(z.number()),
      signals: z.array(z.int()).meta({ description: 'places of ranges outside their limits' }),
    }),
    constants: givenConstants,
  }),
  example: {
    subgroups: [
      [400.2, 401.1, 399.6],
      [400.9, 398.8, 400.4],
      [401.5, 400.1, 399.9],
    ],
  },
  alsoReads: subgrouped,
  run({ subgroups, rules = [...routineRules] }) {
    const summary = summarise(subgroups, rangeOf);
    if (!summary.ok) return summary;
    const { constants, means, grandMean, spreads, meanSpread } = summary.value;
    const { n, d2, d3, A2, D3, D4 } = constants;
    const half = A2 * meanSpread;
    const limits = { lower: grandMean - half, upper: grandMean + half };
    const rangeLimits = { lower: D3 * meanSpread, upper: D4 * meanSpread };
    const signals = nelsonSignals(means, grandMean, half / 3, rules);
    return {
      ok: true,
      value: {
        centre: grandMean,
        sigma: meanSpread / d2,
        limits,
        points: means,
        signals,
        range: { centre: meanSpread, limits: rangeLimits, points: spreads, signals: outsideOf(spreads, rangeLimits) },
        constants: { n, d2, d3, A2, D3, D4 },
        inputs: { subgroups, rules },
        explanation:
          `${subgroups.length} subgroups of ${n}: centre ${shown(grandMean)}, mean range ${shown(meanSpread)}. ` +
          `Limits of averages are the centre ± A2 × mean range = ${shown(limits.lower)} and ${shown(limits.upper)} with A2 = ${A2}; ` +
          `ranges run from ${shown(rangeLimits.lower)} to ${shown(rangeLimits.upper)} (D3 = ${D3}, D4 = ${D4}). ` +
          `Signals on averages: ${signals.length}. ${strictness}`,
        source: 'NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.1, factors as printed; signals by Nelson 1984',
        validRange: 'subgroups of 2 to 25 independent values, roughly normal; above 10 values xbar-s-chart is the better chart',
        cautions: ['Judge the ranges first: limits of averages mean nothing while the ranges are out of control.', standardCaution],
      },
    };
  },
});
