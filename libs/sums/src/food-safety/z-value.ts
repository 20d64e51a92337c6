import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { celsius, only, positive, shown } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

export interface DValue {
  readonly celsius: number;
  readonly dMinutes: number;
}

/** Least-squares line of log10 D on temperature: slope per °C, and r². NaN slope where all temperatures are equal. Centred, so large offsets lose nothing. */
export function fitLogD(points: readonly DValue[]): { slope: number; r2: number } {
  const n = points.length;
  let meanT = 0;
  let meanY = 0;
  for (const p of points) {
    meanT += p.celsius / n;
    meanY += Math.log10(p.dMinutes) / n;
  }
  let tt = 0;
  let ty = 0;
  let yy = 0;
  for (const p of points) {
    const [t, y] = [p.celsius - meanT, Math.log10(p.dMinutes) - meanY];
    tt += t * t;
    ty += t * y;
    yy += y * y;
  }
  return { slope: ty / tt, r2: yy === 0 ? 1 : (ty * ty) / (tt * yy) };
}

const point = only({ celsius: celsius('temperature of the trial'), dMinutes: positive('D at that temperature, in minutes', 1e9) });

export const zValue = defineCalculation({
  name: 'z-value',
  title: 'z from D values at several temperatures',
  input: only({
    points: z
      .array(point, { error: 'a list of 2 to 10000 D values { celsius, dMinutes }' })
      .min(2, { error: 'at least two D values, at different temperatures' })
      .max(10_000, { error: 'at most 10000 D values' }),
  }),
  output: z.object({
    zCelsius: z.number().nullable(),
    slope: z.number().meta({ description: 'of log10 D on temperature, per °C' }),
    r2: z.number(),
    reason: z.string().nullable().meta({ description: 'why there is no z; null where there is one' }),
  }),
  example: {
    points: [
      { celsius: 55, dMinutes: 62.2 },
      { celsius: 58, dMinutes: 40.1 },
      { celsius: 61, dMinutes: 16.5 },
    ],
  },
  run({ points }) {
    const temperatures = new Set(points.map((p) => p.celsius));
    if (temperatures.size < 2) return refuse('unacceptable-value', 'points', 'D values at two or more different temperatures');
    const { slope, r2 } = fitLogD(points);
    const [from, to] = [...temperatures].reduce(([low, high], t) => [Math.min(low, t), Math.max(high, t)], [Infinity, -Infinity]);
    const reason = slope < 0 ? null : 'D does not get shorter as the temperature rises in these trials, so they show no z.';
    const zCelsius = slope < 0 ? -1 / slope : null;
    return {
      ok: true,
      value: {
        zCelsius,
        slope,
        r2,
        reason,
        inputs: { points },
        explanation:
          zCelsius === null
            ? (reason ?? '')
            : `The straight line through log10 D at ${points.length} points falls by one in ${shown(zCelsius)} °C, which is z (r² ${shown(r2)}).`,
        source: 'Least squares of log10 D on temperature; z = −1 / slope',
        validRange: `${from} to ${to} °C, the temperatures tried, and the product they were tried in.`,
        cautions: [
          standardCaution,
          'A z must not be carried over to another product, nor outside the temperatures tried.',
          ...(temperatures.size === 2 ? ['Two temperatures always lie on a line: they give no sign of how good the fit is.'] : []),
          ...(temperatures.size > 2 && r2 < 0.9
            ? ['The points lie poorly on a line: look for a shoulder, a tail or an error before using this z.']
            : []),
          'Authors who regress every replicate, and not the means, get a slightly different z.',
        ],
      },
    };
  },
});
