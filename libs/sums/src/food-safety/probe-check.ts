import { refuse } from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { airPressure, altitudeRange, boilingPoint, boilingSource, pressureCautions, pressureOrHeight } from './boiling.js';
import { between, celsius, only, shown } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

export const usualProbeTolerance = 1;
const tolerance = 'tolerance in °C, as a difference';

/** A probe's error in °C, reading minus reference, and whether its size is within the tolerance, ends included. Decimal: 0.3 − 0.1 is 0.2. */
export function probeOffset(
  readCelsius: number,
  referenceCelsius: number,
  toleranceCelsius: number,
): { offsetCelsius: number; verdict: 'pass' | 'fail' } {
  const offset = new Decimal(readCelsius).minus(referenceCelsius);
  return { offsetCelsius: offset.toNumber(), verdict: offset.abs().lte(toleranceCelsius) ? 'pass' : 'fail' };
}

/** Where the reference comes from. */
export const referenceBasis = z.enum(['pressure', 'altitude', 'melting-ice']);

export const probeCheck = defineCalculation({
  name: 'probe-check',
  title: 'Check of a probe in ice or in boiling water',
  input: only({
    kind: z.enum(['ice', 'boiling'], { error: 'ice or boiling' }),
    readCelsius: celsius('what the probe showed'),
    toleranceCelsius: between(tolerance, 0.01, 5).optional(),
    pressurePascal: between('air pressure at the place, in pascal (1013.25 hPa is 101325 Pa)', airPressure.min, airPressure.max).optional(),
    altitudeMetres: between('height above sea level in metres', altitudeRange.min, altitudeRange.max).optional(),
  }),
  output: z.object({
    verdict: z.enum(['pass', 'fail']),
    offsetCelsius: z.number(),
    referenceCelsius: z.number(),
    assumed: referenceBasis,
  }),
  example: { kind: 'boiling', readCelsius: 98.5, toleranceCelsius: 1, altitudeMetres: 300 },
  run(given) {
    const toleranceCelsius = given.toleranceCelsius ?? usualProbeTolerance;
    const point = given.kind === 'ice' ? null : boilingPoint(given.pressurePascal, given.altitudeMetres);
    if (given.kind === 'boiling' && point === null) {
      return refuse('unacceptable-value', 'pressurePascal', `${pressureOrHeight}; or check in ice, which needs neither`);
    }
    const referenceCelsius = point?.boilingCelsius ?? 0;
    const { offsetCelsius, verdict } = probeOffset(given.readCelsius, referenceCelsius, toleranceCelsius);
    const assumed: z.infer<typeof referenceBasis> = point?.assumed ?? 'melting-ice';
    const where =
      point === null ? 'Melting ice is at 0 °C' : `Water boils at ${shown(referenceCelsius, 2)} °C at ${shown(point.pascal, 0)} Pa`;
    const size = verdict === 'pass' ? 'within' : 'outside';
    const direction =
      offsetCelsius === 0 ? 'is exact' : `reads ${shown(Math.abs(offsetCelsius), 2)} °C too ${offsetCelsius > 0 ? 'high' : 'low'}`;
    return {
      ok: true,
      value: {
        verdict,
        offsetCelsius,
        referenceCelsius,
        assumed,
        inputs: { ...given, toleranceCelsius },
        explanation: `${where}; the probe showed ${given.readCelsius} °C, so it ${direction}: ${size} ± ${toleranceCelsius} °C.`,
        source: `Regulators’ guidance: ice 0 ± 1 °C, boiling ± 1 °C about the local boiling point. ${boilingSource}`,
        validRange: null,
        cautions: [
          standardCaution,
          ...(given.toleranceCelsius === undefined
            ? [`No tolerance was given: ± ${usualProbeTolerance} °C of the guidance was used.`]
            : []),
          'Holds near the temperature checked; a probe may be right in ice and wrong in hot food.',
          ...(verdict === 'fail' ? ['Take the probe out of use, and look again at what it has measured since its last good check.'] : []),
          ...(point === null ? [] : pressureCautions(point, given.altitudeMetres)),
        ],
      },
    };
  },
});
