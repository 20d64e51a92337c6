import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { movingRangeFactors } from './constants.js';
import { band, meanMovingRangeOf, meanOf, reading, series, shown, spread } from './series.js';
import { oneCentre, sidedSignal, type SidedSignal } from './sided.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { renamed } from '../spellings.js';

interface Point {
  readonly ewma: number;
  readonly lower: number;
  readonly upper: number;
}

/** Smoothed values with exact limits for each, and the points strictly outside them. */
function smooth(
  values: readonly number[],
  centre: number,
  sigma: number,
  lambda: number,
  width: number,
): { points: Point[]; signals: SidedSignal[] } {
  const points: Point[] = [];
  const signals: SidedSignal[] = [];
  const fading = 2 * Math.log1p(-lambda); // 1 − (1 − λ)^2i by expm1, so that a small λ keeps its digits
  let ewma = centre;
  for (const value of values) {
    ewma = lambda * value + (1 - lambda) * ewma;
    const half = width * sigma * Math.sqrt((lambda / (2 - lambda)) * -Math.expm1(fading * (points.length + 1)));
    const point = { ewma, lower: centre - half, upper: centre + half };
    if (ewma > point.upper) signals.push({ side: 'high', index: points.length });
    if (ewma < point.lower) signals.push({ side: 'low', index: points.length });
    points.push(point);
  }
  return { points, signals };
}

/** Exponentially weighted moving average with asymptotic limits and, point by point, exact ones. NIST/SEMATECH e-Handbook 6.3.2.4. */
export const ewmaChart = defineCalculation({
  name: 'ewma-chart',
  title: 'Control chart of the exponentially weighted moving average',
  input: z.strictObject({
    values: series(1),
    lambda: z
      .number({ error: 'a number above 0 and at most 1' })
      .gt(0, 'a number above 0 and at most 1')
      .max(1, 'a number above 0 and at most 1')
      .optional()
      .meta({ description: 'weight of the newest value, above 0 and at most 1; 0.3 when left out' }),
    centre: reading
      .optional()
      .meta({ description: 'centre line and starting value, from earlier data; the mean of the values when left out' }),
    target: reading.optional().meta({ description: 'another name for centre' }),
    sigma: spread
      .optional()
      .meta({ description: 'standard deviation of single values, from earlier data; from the mean moving range when left out' }),
    width: spread.optional().meta({ description: 'half width of the limits in standard deviations of the average; 3 when left out' }),
  }),
  output: z.object({
    centre: z.number(),
    sigma: z.number(),
    limits: band.meta({ description: 'asymptotic limits, as the e-Handbook prints them' }),
    points: z.array(z.object({ ewma: z.number(), lower: z.number(), upper: z.number() })).meta({
      description: 'the smoothed value with the exact limits at that point',
    }),
    signals: z.array(sidedSignal).meta({ description: 'points strictly outside their exact limits' }),
  }),
  example: { values: [52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5], lambda: 0.3, centre: 50, sigma: 2.0539 },
  alsoReads: (raw) => renamed(raw, { start: 'centre', mean: 'centre', L: 'width', s: 'sigma' }),
  run({ values, lambda = 0.3, centre: given, target, sigma: knownSigma, width = 3 }) {
    const known = oneCentre(given, target);
    if (!known.ok) return known;
    const centre = known.value ?? meanOf(values);
    const sigma = knownSigma ?? meanMovingRangeOf(values) / movingRangeFactors.d2;
    if (!(sigma >= 1e-12)) return refuse('unacceptable-value', 'sigma', 'a sigma above 0, or at least 2 values that are not all equal');
    const half = width * sigma * Math.sqrt(lambda / (2 - lambda));
    const limits = { lower: centre - half, upper: centre + half };
    const { points, signals } = smooth(values, centre, sigma, lambda, width);
    return {
      ok: true,
      value: {
        centre,
        sigma,
        limits,
        points,
        signals,
        inputs: { values, lambda, centre: known.value ?? null, sigma: knownSigma ?? null, width },
        explanation:
          `Starting from ${shown(centre)}, each point is ${shown(lambda)} of the new value and ${shown(1 - lambda)} of the point before. ` +
          `The limits settle at ${shown(limits.lower)} and ${shown(limits.upper)} (${shown(width)} × sigma ${shown(sigma)} × √(λ/(2 − λ))) ` +
          `and are narrower at the first points; signals, ${signals.length} here, are points strictly outside the narrower ones.`,
        source:
          'NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4; exact variance of the average: Lucas and Saccucci, Technometrics 32(1), 1990',
        validRange: '0 < λ ≤ 1 (0.2 to 0.3 is usual); independent values; centre and sigma from a process in control',
        cautions: [
          ...(known.value === undefined ? ['A centre that comes from the same values hides a shift that was there from the start.'] : []),
          standardCaution,
        ],
      },
    };
  },
});
