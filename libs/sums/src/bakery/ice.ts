import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { defineCalculation } from '../calculation.js';
import { between, only, positive, shown } from '../food-safety/fields.js';

/** Heats as kilojoules: water 1 BTU/(lb °F) = 4.1868 kJ/(kg K) by definition of the international BTU; melting 144 BTU/lb = 80 K of water. */
const water = new Decimal('4.1868');
const meltingAsDegrees = 80;
/** Ice warms with half the heat that water needs: 0.50 BTU/(lb °F), engineering handbooks (from memory). */
const iceToWater = new Decimal('0.5');

const balance = z.object({
  waterGivesKilojoules: z.number(),
  iceWarmingKilojoules: z.number(),
  iceMeltingKilojoules: z.number(),
  meltWaterKilojoules: z.number(),
  differenceKilojoules: z.number().meta({ description: 'what the rounding of the ice to a milligram leaves over' }),
});
type Balance = z.output<typeof balance>;
const input = only({
  waterKilograms: positive('all the water of the formula in kilograms', 100_000),
  tapCelsius: between('the temperature of the water at hand in °C', 0, 100),
  wantedCelsius: between('the wanted water temperature in °C', -100, 100),
  iceCelsius: between('the temperature of the ice in °C', -60, 0).optional().meta({ description: '0 when left out' }),
  way: z.enum(['replacing', 'adding'], {
    error: 'replacing (the ice takes the place of water) or adding (the ice comes on top of all the water)',
  }),
});
type Given = z.output<typeof input>;
interface Amount {
  readonly ice: Decimal;
  readonly water: Decimal;
}

/** Ice and water in kilograms, the ice rounded to a milligram so that replacing adds up to the whole exactly. */
function iceNeeded({ waterKilograms, tapCelsius, wantedCelsius, way }: Given, iceCelsius: number): Amount {
  const drop = new Decimal(tapCelsius).minus(wantedCelsius);
  const taken = iceToWater.times(-iceCelsius).plus(meltingAsDegrees).plus(wantedCelsius); // by each kg of ice, in degrees of water
  const ice = new Decimal(waterKilograms)
    .times(drop)
    .div(way === 'replacing' ? taken.plus(drop) : taken)
    .toDecimalPlaces(6);
  return { ice, water: way === 'replacing' ? new Decimal(waterKilograms).minus(ice) : new Decimal(waterKilograms) };
}

function heatBalance(amount: Amount, { tapCelsius, wantedCelsius }: Given, iceCelsius: number): Balance {
  const cooled = amount.ice.isZero() ? tapCelsius : wantedCelsius;
  const gives = amount.water.times(water).times(new Decimal(tapCelsius).minus(cooled));
  const warming = amount.ice.times(water).times(iceToWater).times(-iceCelsius);
  const melting = amount.ice.times(water).times(meltingAsDegrees);
  const melt = amount.ice.times(water).times(cooled);
  const tidy = (heat: Decimal) => heat.toDecimalPlaces(6).toNumber();
  return {
    waterGivesKilojoules: tidy(gives),
    iceWarmingKilojoules: tidy(warming),
    iceMeltingKilojoules: tidy(melting),
    meltWaterKilojoules: tidy(melt),
    differenceKilojoules: tidy(gives.minus(warming).minus(melting).minus(melt)),
  };
}

const words = {
  replacing: 'Shown is ice that replaces part of the water: ice and water together weigh what the formula says.',
  adding: 'Shown is ice added to all of the water: the dough gets that much more water, so this changes the formula.',
} as const;

function explain(given: Given, iceCelsius: number, amount: Amount): string {
  const denominator = given.way === 'replacing' ? 'tap' : 'wanted';
  const formula = `ice = water × (tap − wanted) ÷ (${denominator} + 80${iceCelsius === 0 ? '' : ` + 0.5 × ${shown(-iceCelsius)}`})`;
  return (
    `${words[given.way]} To bring ${shown(given.waterKilograms)} kg from ${shown(given.tapCelsius)} to ${shown(given.wantedCelsius)} °C with ice of ${shown(iceCelsius)} °C: ` +
    `${formula} = ${amount.ice.toDecimalPlaces(3).toString()} kg, with ${amount.water.toDecimalPlaces(3).toString()} kg of water. The heat that the water gives is what the ice takes.`
  );
}

/** How much ice cools the water of a dough, from the heat balance with 144 BTU/lb = 80 °C of water in either unit. */
export const ice = defineCalculation({
  name: 'ice',
  title: 'Ice to cool the water of a dough',
  input,
  output: z.object({
    iceKilograms: z.number().nullable(),
    waterKilograms: z.number().nullable().meta({ description: 'the liquid water beside the ice' }),
    heatBalance: balance.nullable(),
    reason: z.string().nullable().meta({ description: 'why there is no figure, or why no ice is needed' }),
  }),
  example: { waterKilograms: 40, tapCelsius: 20, wantedCelsius: 10, way: 'replacing' },
  run(given) {
    const iceCelsius = given.iceCelsius ?? 0;
    const common = {
      inputs: { ...given, iceCelsius },
      source:
        'Heat balance with 144 BTU/lb (80 °C of water) to melt ice, as the trade press prints it; ice warms with 0.50 BTU/(lb °F), engineering handbooks (from memory)',
      validRange: 'water from 0 to 100 °C, ice from −60 to 0 °C, all of it melted when the dough is mixed',
      cautions: [
        'Heat from the room, the bowl and the mixing is not in this sum.',
        'Weigh the ice: it counts as water of the formula when it replaces water, and as water on top when it is added.',
      ],
    };
    if (given.wantedCelsius < 0) {
      const least = iceNeeded({ ...given, wantedCelsius: 0 }, iceCelsius);
      const reason =
        `Not enough cooling is possible: water is never colder than 0 °C. ${least.ice.toDecimalPlaces(3).toString()} kg of ice, ${given.way} water, brings it to 0 °C; ` +
        'beyond that cool the flour or the room, or mix less.';
      return { ok: true, value: { ...common, iceKilograms: null, waterKilograms: null, heatBalance: null, reason, explanation: reason } };
    }
    const none = given.wantedCelsius >= given.tapCelsius;
    const amount = none ? { ice: new Decimal(0), water: new Decimal(given.waterKilograms) } : iceNeeded(given, iceCelsius);
    const reason = none
      ? `No ice: the water is at ${shown(given.tapCelsius)} °C and ${shown(given.wantedCelsius)} °C is wanted. Ice only cools.`
      : null;
    return {
      ok: true,
      value: {
        ...common,
        iceKilograms: amount.ice.toNumber(),
        waterKilograms: amount.water.toNumber(),
        heatBalance: heatBalance(amount, given, iceCelsius),
        reason,
        explanation: reason ?? explain(given, iceCelsius, amount),
      },
    };
  },
});
