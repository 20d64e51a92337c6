import { convertDifference, convertExact, refuse, unitOr, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { between } from '../food-safety/fields.js';
import { changed, renamed, type Fields } from '../spellings.js';

const unitError = 'degC or degF, or °C, C, °F, F';
/** The unit of every figure of a dough temperature sum. */
export const temperatureUnit = z
  .enum(['degC', 'degF'], { error: unitError })
  .meta({ description: 'degC or degF; other spellings, such as °F, are read too' });
export const terms = z.literal([3, 4], { error: '3, or 4 where a preferment goes in' });
export type Scale = z.output<typeof temperatureUnit>;

/** Wide enough for either unit; `temperatureFault` then checks each against −40…100 °C in the unit that was given. */
export const reading = (what: string) => between(`${what}, in the given unit`, -40, 212);
export const difference = (what: string) => between(`${what}, as a difference in the given unit`, -100, 200);

/** Refuses a temperature outside −40…100 °C once the unit is known, so that °F typed as °C is noticed. */
export function temperatureFault(scale: Scale, temperatures: Readonly<Record<string, number | undefined>>): Refused | null {
  const most = scale === 'degC' ? 100 : 212;
  for (const [field, figure] of Object.entries(temperatures)) {
    if (figure !== undefined && figure > most) return refuse('unacceptable-value', field, `a temperature from -40 to ${most} ${scale}`);
  }
  return null;
}

/** The number of terms, and the refusal where it does not agree with whether a preferment's temperature was given. */
export function termsOf(given: 3 | 4 | undefined, preferment: number | undefined): 3 | 4 | Refused {
  const count = given ?? (preferment === undefined ? 3 : 4);
  if (count === 3 && preferment !== undefined)
    return refuse('unacceptable-value', 'factors.preferment', 'nothing with terms 3: use terms 4 where a preferment goes in');
  if (count === 4 && preferment === undefined)
    return refuse('unacceptable-value', 'factors.preferment', 'the temperature of the preferment, or terms 3');
  return count;
}

const tidy = (figure: { toDecimalPlaces(places: number): { toNumber(): number } }): number => figure.toDecimalPlaces(6).toNumber();

/** A temperature in both units, to 6 decimals. */
export function inBoth(figure: string, scale: Scale): { celsius: number; fahrenheit: number } {
  return { celsius: tidy(convertExact(figure, scale, 'degC')), fahrenheit: tidy(convertExact(figure, scale, 'degF')) };
}

/** A difference in both units, to 6 decimals: 35 °F is 19.444444 °C. */
export function differenceInBoth(figure: string, scale: Scale): { celsius: number; fahrenheit: number } {
  return { celsius: tidy(convertDifference(figure, scale, 'degC')), fahrenheit: tidy(convertDifference(figure, scale, 'degF')) };
}

export const doughSource = 'Dough temperature by the sum of factors: common practice of the trade, as the trade press prints it';
export const termsCaution =
  'A friction factor found with three terms serves three-term sums only, and one found with four terms four-term sums only.';
export const mixerCaution = 'A friction factor belongs to one mixer, dough size, speed and time: find it anew when one of them changes.';

/** Reads a unit in other spellings, and factors as a list in the order of the sum: the preferment before the last where there are four. */
export function alsoReads(raw: Fields, names: Readonly<Record<string, string>>, order: readonly [string, string, string]): Fields {
  const [first, second, last] = order;
  return changed(changed(renamed(raw, names), 'unit', unitOr), 'factors', (factors) => {
    if (!Array.isArray(factors))
      return typeof factors === 'object' && factors !== null ? renamed({ ...factors }, { frictionFactor: 'friction' }) : factors;
    const fields = factors.length === 4 ? [first, second, 'preferment', last] : order;
    return factors.length === 3 || factors.length === 4
      ? Object.fromEntries(fields.map((field, i): [string, unknown] => [field, factors[i]]))
      : factors;
  });
}
