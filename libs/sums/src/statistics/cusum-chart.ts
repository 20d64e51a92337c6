import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { band, reading, series, shown, spread } from './series.js';
import { oneCentre, sidedSignal, type SidedSignal } from './sided.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { renamed } from '../spellings.js';

interface Sums {
  readonly high: number;
  readonly low: number;
}

/** The two one-sided sums at each value, and the places where one is strictly above h; within rounding of it counts as on it. Sums are not reset. */
function accumulate(values: readonly number[], target: number, k: number, h: number): { points: Sums[]; signals: SidedSignal[] } {
  const points: Sums[] = [];
  const signals: SidedSignal[] = [];
  const above = h + 256 * Number.EPSILON * (Math.abs(target) + h);
  let [high, low] = [0, 0];
  for (const value of values) {
    high = Math.max(0, high + (value - target) - k);
    low = Math.max(0, low + (target - value) - k);
    if (high > above) signals.push({ side: 'high', index: points.length });
    if (low > above) signals.push({ side: 'low', index: points.length });
    points.push({ high, low });
  }
  return { points, signals };
}

const slackText = 'a number from 0 to 1e15';

/** Tabular cumulative sums above and below a target. NIST/SEMATECH e-Handbook 6.3.2.3. */
export const cusumChart = defineCalculation({
  name: 'cusum-chart',
  title: 'Tabular cumulative sum chart',
  input: z.strictObject({
    values: series(1),
    target: reading.optional().meta({ description: 'the value aimed at; this or centre must be given' }),
    centre: reading.optional().meta({ description: 'another name for target' }),
    k: z.number({ error: slackText }).min(0, slackText).max(1e15, slackText).meta({
      description: 'slack: half the shift to be found, in the unit of the values, or in sigmas when sigma is given',
    }),
    h: spread.meta({ description: 'decision limit, in the unit of the values, or in sigmas when sigma is given' }),
    sigma: spread.optional().meta({ description: 'when given, k and h are multiples of it' }),
  }),
  output: z.object({
    centre: z.number(),
    limits: band.meta({ description: 'of the sums: 0, below which they are never let, and the decision limit' }),
    points: z
      .array(z.object({ high: z.number(), low: z.number() }))
      .meta({ description: 'the upper and the lower sum, both counted upwards from 0' }),
    signals: z.array(sidedSignal).meta({ description: 'points at which a sum is strictly above the decision limit' }),
  }),
  example: { values: [324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 328.325, 327.25], target: 325, k: 0.3175, h: 4.1959 },
  alsoReads: (raw) => renamed(raw, { mean: 'target', T: 'target', s: 'sigma' }),
  run({ values, target: aim, centre: other, k, h, sigma }) {
    const given = oneCentre(other, aim);
    if (!given.ok) return given;
    const target = given.value;
    if (target === undefined) return refuse('malformed', 'target', 'the value aimed at, a finite number');
    const unit = sigma ?? 1;
    const limit = h * unit;
    const { points, signals } = accumulate(values, target, k * unit, limit);
    const first = signals[0];
    return {
      ok: true,
      value: {
        centre: target,
        limits: { lower: 0, upper: limit },
        points,
        signals,
        inputs: { values, target, k, h, sigma: sigma ?? null },
        explanation:
          `Each value adds its distance above ${shown(target)}, less a slack of ${shown(k * unit)}, to the upper sum, ` +
          `and its distance below, less the same slack, to the lower sum; neither goes under 0. A sum above ${shown(limit)} is a signal: ` +
          (first === undefined ? 'none here.' : `${signals.length} here, the first at index ${first.index} (${first.side}).`),
        source: 'NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3, tabular form',
        validRange: sigma === undefined ? 'k and h in the unit of the values; independent values' : 'k and h in sigmas; independent values',
        cautions: ['The sums are not set back to 0 after a signal.', standardCaution],
      },
    };
  },
});
