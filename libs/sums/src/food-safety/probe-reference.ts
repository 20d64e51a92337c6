import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { altitudeRange, boilingPoint, boilingSource, pressureCautions, pressureOrHeight, saturationRange } from './boiling.js';
import { between, only, shown } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

export const probeReference = defineCalculation({
  name: 'probe-reference',
  title: 'What a perfect probe shows in ice and in boiling water',
  input: only({
    pressurePascal: between(
      'air pressure at the place, in pascal (1013.25 hPa is 101325 Pa)',
      saturationRange.min,
      saturationRange.max,
    ).optional(),
    altitudeMetres: between('height above sea level in metres', altitudeRange.min, altitudeRange.max).optional(),
  }),
  output: z.object({
    boilingCelsius: z.number(),
    iceCelsius: z.number(),
    assumed: z.enum(['pressure', 'altitude']),
    pressurePascal: z.number().meta({ description: 'the pressure used, given or taken from the height' }),
  }),
  example: { pressurePascal: 97500 },
  run(given) {
    const point = boilingPoint(given.pressurePascal, given.altitudeMetres);
    if (point === null) return refuse('unacceptable-value', 'pressurePascal', pressureOrHeight);
    const from = point.assumed === 'pressure' ? 'as given' : `assumed from a height of ${given.altitudeMetres} m`;
    return {
      ok: true,
      value: {
        boilingCelsius: point.boilingCelsius,
        iceCelsius: 0,
        assumed: point.assumed,
        pressurePascal: point.pascal,
        inputs: { ...given },
        explanation: `At ${shown(point.pascal, 0)} Pa, ${from}, water boils at ${shown(point.boilingCelsius, 2)} °C; melting ice is at 0 °C.`,
        source: boilingSource,
        validRange: `Pressure ${saturationRange.min} to ${saturationRange.max} Pa; height ${altitudeRange.min} to ${altitudeRange.max} m.`,
        cautions: [standardCaution, ...pressureCautions(point, given.altitudeMetres)],
      },
    };
  },
});
