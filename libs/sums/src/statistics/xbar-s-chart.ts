import * as z from 'zod';
import { nelsonSignals, routineRules, ruleList, signal, strictness } from './nelson.js';
import { band, deviationOf, shown } from './series.js';
import { givenConstants, outsideOf, subgrouped, subgroupList, summarise } from './subgroups.js';
import { defineCalculation, standardCaution } from '../calculation.js';

/** Charts of subgroup averages and standard deviations: x̄ ± A3·s̄, and B3·s̄ to B4·s̄. NIST/SEMATECH e-Handbook 6.3.2.1. */
export const xbarSChart = defineCalculation({
  name: 'xbar-s-chart',
  title: 'Control charts of averages and standard deviations',
  input: z.strictObject({
    subgroups: subgroupList,
    rules: ruleList.optional().meta({ description: 'numbers of Nelson’s tests for the averages, 1 to 8; tests 1 to 4 when left out' }),
  }),
  output: z.object({
    centre: z.number().meta({ description: 'mean of the subgroup averages' }),
    sigma: z.number().meta({ description: 'sigma of single values: mean standard deviation divided by c4' }),
    limits: band,
    points: z.array(z.number()).meta({ description: 'average of each subgroup' }),
    signals: z.array(signal).meta({ description: 'tests on the averages' }),
    standardDeviation: z.object({
      centre: z.number(),
      limits: band,
      points: z.array(z.number()),
      signals: z.array(z.int()).meta({ description: 'places of standard deviations outside their limits' }),
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
    const summary = summarise(subgroups, (values) => deviationOf(values));
    if (!summary.ok) return summary;
    const { constants, means, grandMean, spreads, meanSpread } = summary.value;
    const { n, c4, A3, B3, B4 } = constants;
    const half = A3 * meanSpread;
    const limits = { lower: grandMean - half, upper: grandMean + half };
    const deviationLimits = { lower: B3 * meanSpread, upper: B4 * meanSpread };
    const signals = nelsonSignals(means, grandMean, half / 3, rules);
    return {
      ok: true,
      value: {
        centre: grandMean,
        sigma: meanSpread / c4,
        limits,
        points: means,
        signals,
        standardDeviation: { centre: meanSpread, limits: deviationLimits, points: spreads, signals: outsideOf(spreads, deviationLimits) },
        constants: { n, c4, A3, B3, B4 },
        inputs: { subgroups, rules },
        explanation:
          `${subgroups.length} subgroups of ${n}: centre ${shown(grandMean)}, mean standard deviation ${shown(meanSpread)}. ` +
          `Limits of averages are the centre ± A3 × mean standard deviation = ${shown(limits.lower)} and ${shown(limits.upper)} with A3 = ${shown(A3)}; ` +
          `standard deviations run from ${shown(deviationLimits.lower)} to ${shown(deviationLimits.upper)}. ` +
          `Signals on averages: ${signals.length}. ${strictness}`,
        source: 'NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.1, c4 from its gamma formula; signals by Nelson 1984',
        validRange: 'subgroups of 2 to 25 independent values, roughly normal',
        cautions: ['Judge the standard deviations first: limits of averages mean nothing while they are out of control.', standardCaution],
      },
    };
  },
});
