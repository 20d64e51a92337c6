import { refuse } from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import {
  alsoReads,
  difference,
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
import { between, only, shown } from '../food-safety/fields.js';

function reach(celsius: number): string | null {
  if (celsius < 0) return 'Water is ice below 0 °C: this cannot be reached with water. Cool the flour or the room, mix less, or use ice.';
  if (celsius > 100) return 'Water boils below this: it cannot be reached with water. Warm the flour or the room.';
  return null;
}

const warm =
  'Water this warm can harm yeast and set flour where it meets them first: common practice keeps it below about 50 °C, no source.';

/** The heat that warms a leaven of as much water as flour by a degree, beside that of as much water: (1.8 + 4.19) / 2 over 4.19 kJ/kg·K, from memory. */
const leavenHeat = 0.72;
const leavenSource =
  'What the leaven is colder or warmer than the wanted dough, the water makes up by its mass: a heat balance, with heat capacities from memory';
const leavenCaution =
  'The leaven counts as one of as much water as flour, and the friction factor as one found with a leaven that had the wanted temperature of the dough.';

/**
 * The temperature the water must have for a dough to come out as wanted: terms × wanted − the factors. Common practice, trade press. A leaven of
 * a known mass counts by its heat, and not as a term that weighs as much as the flour.
 */
export const waterTemperature = defineCalculation({
  name: 'water-temperature',
  title: 'The water temperature for a wanted dough temperature',
  input: only({
    wanted: reading('the wanted dough temperature'),
    factors: only({
      flour: reading('the flour temperature'),
      room: reading('the room temperature'),
      friction: difference('the friction factor'),
      preferment: reading('the preferment temperature').optional(),
    }),
    leaven: only({
      temperature: reading('the leaven temperature'),
      perWater: between('how much leaven goes in for one part of water, by mass', 0, 20),
    })
      .optional()
      .meta({ description: 'a preferment by its mass; not together with factors.preferment' }),
    unit: temperatureUnit,
    terms: terms.optional(),
    frictionTerms: terms.optional().meta({ description: 'with how many terms the friction factor was found, where it is known' }),
  }),
  output: z.object({
    waterCelsius: z.number(),
    waterFahrenheit: z.number(),
    reachable: z.boolean().meta({ description: 'false where no liquid water has this temperature' }),
    reason: z.string().nullable(),
    frictionCelsius: z.number().meta({ description: 'the friction factor as a difference' }),
    frictionFahrenheit: z.number(),
    terms,
  }),
  example: { wanted: 80, factors: { flour: 65, room: 75, friction: 35 }, unit: 'degF', terms: 3 },
  alsoReads: (raw) => alsoReads(raw, { wantedTemperature: 'wanted' }, ['flour', 'room', 'friction']),
  run(given) {
    const { flour, room, friction, preferment } = given.factors;
    const scale = given.unit;
    const fault = temperatureFault(scale, {
      wanted: given.wanted,
      'factors.flour': flour,
      'factors.room': room,
      'factors.preferment': preferment,
      'leaven.temperature': given.leaven?.temperature,
    });
    if (fault !== null) return fault;
    if (given.leaven !== undefined && preferment !== undefined)
      return refuse('unacceptable-value', 'leaven', 'nothing where the preferment is one of the factors');
    const count = termsOf(given.terms, preferment);
    if (typeof count === 'object') return count;
    if (given.frictionTerms !== undefined && given.frictionTerms !== count) {
      return refuse(
        'unacceptable-value',
        'frictionTerms',
        `${count}, as many as this sum has: a factor found with ${given.frictionTerms} terms belongs to another sum`,
      );
    }
    const taken = new Decimal(flour)
      .plus(room)
      .plus(friction)
      .plus(preferment ?? 0);
    const { leaven } = given;
    const made = leaven && new Decimal(given.wanted).minus(leaven.temperature).times(leaven.perWater).times(leavenHeat);
    const water = new Decimal(given.wanted)
      .times(count)
      .minus(taken)
      .plus(made ?? 0);
    const both = inBoth(water.toString(), scale);
    const rub = differenceInBoth(String(friction), scale);
    const reason = reach(both.celsius);
    const sum = [flour, room, ...(preferment === undefined ? [] : [preferment]), friction].map((figure) => shown(figure)).join(' + ');
    const named = preferment === undefined ? 'flour, room and friction' : 'flour, room, preferment and friction';
    return {
      ok: true,
      value: {
        waterCelsius: both.celsius,
        waterFahrenheit: both.fahrenheit,
        reachable: reason === null,
        reason,
        frictionCelsius: rub.celsius,
        frictionFahrenheit: rub.fahrenheit,
        terms: count,
        inputs: {
          wantedCelsius: inBoth(String(given.wanted), scale).celsius,
          flourCelsius: inBoth(String(flour), scale).celsius,
          roomCelsius: inBoth(String(room), scale).celsius,
          prefermentCelsius: preferment === undefined ? null : inBoth(String(preferment), scale).celsius,
          frictionCelsiusDifference: rub.celsius,
          leavenCelsius: leaven === undefined ? null : inBoth(String(leaven.temperature), scale).celsius,
          leavenPerWater: leaven?.perWater ?? null,
          unit: scale,
          terms: count,
        },
        explanation:
          `${count} × ${shown(given.wanted)} less ${named} (${sum})${leaven && made ? `, and ${shown(made.toNumber(), 2)} for the leaven of ${shown(leaven.temperature)}` : ''} is ${water.toDecimalPlaces(3).toString()} ${scale === 'degC' ? '°C' : '°F'}, ` +
          `that is ${shown(both.celsius, 2)} °C or ${shown(both.fahrenheit, 2)} °F.`,
        source: leaven === undefined ? doughSource : `${doughSource}. ${leavenSource}`,
        validRange: 'water from 0 to 100 °C, and a friction factor found with the same number of terms on the same mixer',
        cautions: [termsCaution, mixerCaution, ...(leaven === undefined ? [] : [leavenCaution]), ...(both.celsius > 50 ? [warm] : [])],
      },
    };
  },
});
