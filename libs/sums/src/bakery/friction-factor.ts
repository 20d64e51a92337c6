import { Decimal } from 'decimal.js';
import * as z from 'zod';
import {
  alsoReads,
  differenceInBoth,
  doughSource,
  inBoth,
  mixerCaution,
  reading,
  temperatureFault,
  temperatureUnit,
  terms,
  termsCaution,
  termsOf,
} from './dough-temperature.js';
import { defineCalculation } from '../calculation.js';
import { only, shown } from '../food-safety/fields.js';

const cooled = 'A factor below 0 says that the dough lost heat while it was mixed, or that a temperature is wrong: measure again.';

/** How far mixing warmed a dough: terms × actual − the factors. A difference, so it converts without the 32. Common practice. */
export const frictionFactor = defineCalculation({
  name: 'friction-factor',
  title: 'The friction factor of a mixing',
  input: only({
    actual: reading('the dough temperature as measured'),
    factors: only({
      flour: reading('the flour temperature'),
      room: reading('the room temperature'),
      water: reading('the water temperature'),
      preferment: reading('the preferment temperature').optional(),
    }),
    unit: temperatureUnit,
    terms: terms.optional(),
  }),
  output: z.object({
    frictionCelsius: z.number().meta({ description: 'a difference in °C' }),
    frictionFahrenheit: z.number().meta({ description: 'the same difference in °F' }),
    terms,
  }),
  example: { actual: 28.5, factors: { flour: 21, room: 24, water: 19 }, unit: 'degC', terms: 3 },
  alsoReads: (raw) => alsoReads(raw, { actualTemperature: 'actual' }, ['flour', 'room', 'water']),
  run(given) {
    const { flour, room, water, preferment } = given.factors;
    const scale = given.unit;
    const fault = temperatureFault(scale, {
      actual: given.actual,
      'factors.flour': flour,
      'factors.room': room,
      'factors.water': water,
      'factors.preferment': preferment,
    });
    if (fault !== null) return fault;
    const count = termsOf(given.terms, preferment);
    if (typeof count === 'object') return count;
    const factor = new Decimal(given.actual).times(count).minus(
      new Decimal(flour)
        .plus(room)
        .plus(water)
        .plus(preferment ?? 0),
    );
    const both = differenceInBoth(factor.toString(), scale);
    const sum = [flour, room, water, ...(preferment === undefined ? [] : [preferment])].map((figure) => shown(figure)).join(' + ');
    const celsiusOf = (figure: number) => inBoth(String(figure), scale).celsius;
    return {
      ok: true,
      value: {
        frictionCelsius: both.celsius,
        frictionFahrenheit: both.fahrenheit,
        terms: count,
        inputs: {
          actualCelsius: celsiusOf(given.actual),
          flourCelsius: celsiusOf(flour),
          roomCelsius: celsiusOf(room),
          waterCelsius: celsiusOf(water),
          prefermentCelsius: preferment === undefined ? null : celsiusOf(preferment),
          unit: scale,
          terms: count,
        },
        explanation:
          `${count} × ${shown(given.actual)} less ${sum} is a difference of ${factor.toDecimalPlaces(3).toString()} ${scale}, ` +
          `that is ${shown(both.celsius, 2)} °C or ${shown(both.fahrenheit, 2)} °F of difference, found with ${count} terms.`,
        source: doughSource,
        validRange: 'the same mixer, dough size, speeds and times, and sums of the same number of terms',
        cautions: [termsCaution, mixerCaution, ...(factor.isNegative() && !factor.isZero() ? [cooled] : [])],
      },
    };
  },
});
