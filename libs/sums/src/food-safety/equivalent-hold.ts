import * as z from 'zod';
import { celsius, only, positive, shown } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

/** Minutes at `atCelsius` that do as much as `referenceMinutes` at the reference: t · 10^((Tref − T)/z). °C and minutes. */
export function holdMinutes(referenceCelsius: number, referenceMinutes: number, zCelsius: number, atCelsius: number): number {
  return referenceMinutes * 10 ** ((referenceCelsius - atCelsius) / zCelsius);
}

export const equivalentHold = defineCalculation({
  name: 'equivalent-hold',
  title: 'The same heat treatment at another temperature',
  input: only({
    referenceCelsius: celsius('reference temperature'),
    referenceMinutes: positive('minutes at the reference temperature', 1e6),
    zCelsius: positive('z, the rise in °C that makes D ten times shorter', 100),
    celsius: celsius('the temperature asked for'),
  }),
  output: z.object({
    minutes: z.number().nullable(),
    reason: z.string().nullable().meta({ description: 'why there is no figure; null where there is one' }),
  }),
  example: { referenceCelsius: 70, referenceMinutes: 2, zCelsius: 7.5, celsius: 80 },
  run(given) {
    const minutes = holdMinutes(given.referenceCelsius, given.referenceMinutes, given.zCelsius, given.celsius);
    const usable = Number.isFinite(minutes) && minutes >= Number.MIN_VALUE * 2 ** 52; // below that a binary number has lost its figures
    const reference = `${given.referenceMinutes} min at ${given.referenceCelsius} °C`;
    const reason = usable ? null : `${given.celsius} °C is too many z from ${given.referenceCelsius} °C for the formula to say anything.`;
    const far = Math.abs(given.celsius - given.referenceCelsius) > 2 * given.zCelsius;
    return {
      ok: true,
      value: {
        minutes: usable ? minutes : null,
        reason,
        inputs: { ...given },
        explanation: reason ?? `${shown(minutes, 4)} min at ${given.celsius} °C do as much as ${reference}, with z = ${given.zCelsius} °C.`,
        source:
          'Log-linear (Bigelow) model: t(T) = t(Tref) · 10^((Tref − T)/z); UK guidance lists such equivalents of 70 °C for 2 min, rounded up',
        validRange: 'Only the temperatures, and the product, in which z was measured.',
        cautions: [
          standardCaution,
          'Says nothing of spores, of formed toxins or of dry or fat foods.',
          ...(far ? ['More than two z away from the reference: an extrapolation, not evidence.'] : []),
        ],
      },
    };
  },
});
