import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { movingRangeFactors } from './constants.js';
import { nelsonSignals, routineRules } from './nelson.js';
import { counted, deviationOf, meanMovingRangeOf, meanOf, reading, series, shown, spread } from './series.js';
import { defineCalculation, standardCaution } from '../calculation.js';

const unknownControl =
  'It is not known whether the process is in control: the indices mean nothing until a control chart shows that it is.';

const overallSigma =
  'Sigma is that of all values; from the spread within subgroups the indices would usually be larger. Some call these Pp and Ppk.';

/** Whether an individuals chart of the values gives no signal (Nelson tests 1 to 4), and a warning where it does. */
function controlOf(values: readonly number[], mean: number): { inControl: boolean; warning: string | null } {
  const signals = nelsonSignals(values, mean, meanMovingRangeOf(values) / movingRangeFactors.d2, routineRules);
  const [first] = signals;
  if (first === undefined) return { inControl: true, warning: null };
  return {
    inControl: false,
    warning:
      `The process is not in control: an individuals chart gives ${counted(signals.length, 'signal')} ` +
      `(the first by test ${first.rule} at index ${first.index}). Find the cause before using these indices.`,
  };
}

/** Capability indices from values, or from a mean and sigma. NIST/SEMATECH e-Handbook 6.1.6. */
export const capability = defineCalculation({
  name: 'capability',
  title: 'Process capability indices',
  input: z.strictObject({
    values: series(2).optional(),
    mean: reading.optional(),
    sigma: spread.optional(),
    lsl: reading.optional().meta({ description: 'lower specification limit; it or usl may be left out' }),
    usl: reading.optional().meta({ description: 'upper specification limit' }),
  }),
  output: z.object({
    cp: z.number().nullable().meta({ description: 'null when only one limit is given: it needs both' }),
    cpk: z.number(),
    cpl: z.number().nullable(),
    cpu: z.number().nullable(),
    mean: z.number(),
    sigma: z.number(),
    inControl: z.boolean().nullable().meta({ description: 'null when no values were given' }),
    warning: z.string().nullable(),
  }),
  example: { mean: 16, sigma: 2, lsl: 8, usl: 20 },
  run({ values, mean: givenMean, sigma: givenSigma, lsl, usl }) {
    if (lsl === undefined && usl === undefined) return refuse('malformed', 'lsl', 'at least one of lsl and usl');
    if (lsl !== undefined && usl !== undefined && !(usl > lsl)) return refuse('unacceptable-value', 'usl', 'a number greater than lsl');
    if (values !== undefined && givenMean !== undefined) return refuse('malformed', 'mean', 'either values, or mean and sigma, not both');
    if (values !== undefined && givenSigma !== undefined) return refuse('malformed', 'sigma', 'either values, or mean and sigma, not both');
    const mean = values === undefined ? givenMean : meanOf(values);
    if (mean === undefined) return refuse('malformed', givenSigma === undefined ? 'values' : 'mean', 'either values, or mean and sigma');
    const sigma = values === undefined ? givenSigma : deviationOf(values, mean);
    if (sigma === undefined) return refuse('malformed', 'sigma', 'a sigma above 0 together with the mean');
    if (!(sigma >= 1e-12)) return refuse('unacceptable-value', 'values', 'values that are not all equal: with no spread there is no index');
    const cpl = lsl === undefined ? null : (mean - lsl) / (3 * sigma);
    const cpu = usl === undefined ? null : (usl - mean) / (3 * sigma);
    const cp = lsl === undefined || usl === undefined ? null : (usl - lsl) / (6 * sigma);
    const cpk = Math.min(cpl ?? Number.POSITIVE_INFINITY, cpu ?? Number.POSITIVE_INFINITY);
    const { inControl, warning } = values === undefined ? { inControl: null, warning: unknownControl } : controlOf(values, mean);
    return {
      ok: true,
      value: {
        cp,
        cpk,
        cpl,
        cpu,
        mean,
        sigma,
        inControl,
        warning,
        inputs: { values: values ?? null, mean: givenMean ?? null, sigma: givenSigma ?? null, lsl: lsl ?? null, usl: usl ?? null },
        explanation:
          `With mean ${shown(mean)} and sigma ${shown(sigma)}${values === undefined ? '' : ' (n − 1) of the values'}: ` +
          `${cp === null ? 'Cp needs both limits and is not given' : `Cp = (usl − lsl)/6σ = ${shown(cp)}`}; ` +
          `Cpk = ${shown(cpk)}, the smaller of what is left to each limit, in units of 3σ.`,
        source: 'NIST/SEMATECH e-Handbook of Statistical Methods 6.1.6',
        validRange: 'a process in control with normal values; the e-Handbook asks for about 50 independent values or more',
        cautions: [
          ...(values === undefined ? [] : [overallSigma]),
          ...(values !== undefined && values.length < 50 ? [`Only ${values.length} values: the indices are uncertain.`] : []),
          standardCaution,
        ],
      },
    };
  },
});
