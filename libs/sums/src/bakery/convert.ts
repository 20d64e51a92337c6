import {
  canConvert,
  convertExact,
  dimensionOf,
  refuse,
  unitCalled,
  unitsOf,
  unitTable,
  type Unit,
  type UnitDefinition,
} from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { compare, endingDecimal, fraction, minus, over, plus, rounded, times, zero, type Fraction } from './fraction.js';
import { defineCalculation } from '../calculation.js';
import { only } from '../food-safety/fields.js';

const valueError = 'a number, or decimal text such as "4.5", of at most 15 digits before the point and 15 after';
const greatest = 999_999_999_999_999;
const placesError = 'a whole number of decimals from 0 to 12';
const unitWord = (what: string) =>
  z.string({ error: 'the name of a unit, such as g, lb or degC' }).min(1).max(40).meta({ description: what });

const partsOf = (name: Unit) => {
  const definition: UnitDefinition = unitTable[name];
  return { scale: over(fraction(definition.num), fraction(definition.den ?? '1')), offset: fraction(definition.offset ?? '0') };
};

/** The exact ratio of the converted figure, by way of the canonical unit. */
function converted(value: Fraction, from: Unit, to: Unit, difference: boolean): Fraction {
  const [source, target] = [partsOf(from), partsOf(to)];
  const start = difference ? value : plus(value, source.offset);
  const end = over(times(start, source.scale), target.scale);
  return difference ? end : minus(end, target.offset);
}

/** To `places` decimals where given; else to 3, or to 6 significant figures for what is smaller than 1. */
function roundedFor(exact: Fraction, places: number | undefined): number {
  if (places !== undefined) return rounded(exact, places);
  const size = Math.abs(Number(exact.num) / Number(exact.den));
  return size >= 1 || size === 0 ? rounded(exact, 3) : rounded(exact, Math.min(30, 5 - Math.floor(Math.log10(size))));
}

/** To 30 significant digits, of a ratio whose decimal never ends. */
const longDecimal = ({ num, den }: Fraction): string => new Long(num.toString()).div(den.toString()).toFixed();
const Long = Decimal.clone({ precision: 30, rounding: Decimal.ROUND_HALF_EVEN });
/** How one unit follows from the other, for the sentence. */
function how(from: Unit, to: Unit, difference: boolean): string {
  if (isTemperature(from) && !difference) return '°C = (°F − 32)/1.8 and K = °C + 273.15, by definition';
  const one = over(partsOf(from).scale, partsOf(to).scale);
  return `1 ${from}${isTemperature(from) ? ' of difference' : ''} is ${endingDecimal(one) ?? `${one.num}/${one.den}`} ${to}, by definition`;
}

const endless = 'The decimal goes on for ever: the exact value is given as a fraction.';
const isTemperature = (name: Unit) => dimensionOf(name) === 'temperature';

function fault(value: Fraction, from: Unit, to: Unit, difference: boolean) {
  if (!canConvert(from, to)) {
    const pair = new Set([dimensionOf(from), dimensionOf(to)]);
    const density =
      pair.has('mass') && pair.has('volume') ? '; a volume becomes a weight only with a density measured for that very material' : '';
    return refuse(
      'unacceptable-value',
      'to',
      `a unit of ${dimensionOf(from)} like ${from}: ${unitsOf(dimensionOf(from)).join(', ')}${density}`,
    );
  }
  if (difference) return null;
  const least = isTemperature(from) ? fraction(convertExact('0', 'K', from).toFixed()) : zero;
  const absolute =
    isTemperature(from) && from !== 'K'
      ? 'a temperature not below absolute zero (−273.15 °C, −459.67 °F)'
      : 'zero or more; a difference may be below zero with difference: true';
  return compare(value, least) < 0 ? refuse('unacceptable-value', 'value', absolute) : null;
}

/** Converts between units of one kind, exactly. Factors: NIST SP 811, HB 44. */
export const convert = defineCalculation({
  name: 'convert',
  title: 'A figure in another unit, exactly',
  input: only({
    value: z.union(
      [z.number().min(-greatest, valueError).max(greatest, valueError), z.string().regex(/^-?\d{1,15}(\.\d{1,15})?$/, valueError)],
      { error: valueError },
    ),
    from: unitWord('the unit of the value'),
    to: unitWord('the unit wanted'),
    difference: z.boolean({ error: 'true for a difference, such as a friction factor or a tolerance' }).optional(),
    places: z
      .int({ error: placesError })
      .min(0, placesError)
      .max(12, placesError)
      .optional()
      .meta({ description: 'decimals of the rounded figure' }),
  }),
  output: z.object({
    value: z
      .string()
      .meta({ description: 'as decimal text: exact where that ends, else to 30 significant digits, and then exact is null' }),
    exact: z.string().nullable().meta({ description: 'the exact value as decimal text; null where the decimal never ends' }),
    fraction: z.string().nullable().meta({ description: 'the exact value as numerator/denominator where the decimal never ends' }),
    rounded: z.number(),
    unit: z.string(),
    reason: z.string().nullable(),
  }),
  example: { value: '1', from: 'lb', to: 'g' },
  run(given) {
    const [from, to] = [unitCalled(given.from), unitCalled(given.to)];
    if ('acceptable' in from) return refuse('unacceptable-value', 'from', from.acceptable);
    if ('acceptable' in to) return refuse('unacceptable-value', 'to', to.acceptable);
    const figure = new Decimal(given.value).toFixed();
    const difference = given.difference ?? false;
    const wrong = fault(fraction(figure), from.unit, to.unit, difference);
    if (wrong !== null) return wrong;
    const exact = converted(fraction(figure), from.unit, to.unit, difference);
    const text = endingDecimal(exact);
    const near = roundedFor(exact, given.places);
    const temperature = isTemperature(from.unit);
    const what = `${figure} ${from.unit}${difference && temperature ? ' of difference' : ''}`;
    return {
      ok: true,
      value: {
        value: text ?? longDecimal(exact),
        exact: text,
        fraction: text === null ? `${exact.num}/${exact.den}` : null,
        rounded: near,
        unit: to.unit,
        reason: text === null ? endless : null,
        inputs: { value: figure, from: from.unit, to: to.unit, difference, places: given.places ?? null },
        explanation: `${what} is ${text === null ? `${exact.num}/${exact.den} ${to.unit}, about ${near}` : `exactly ${text} ${to.unit}`}: ${how(from.unit, to.unit, difference)}.${text === null ? ` ${endless}` : ''}`,
        source: 'Exact factors by definition: NIST SP 811 (2008) appendix B and NIST Handbook 44 appendix C; °C = (°F − 32)/1.8',
        validRange: null,
        cautions: [
          ...(temperature && !difference
            ? ['This is a temperature. A difference (a friction factor, a tolerance) converts without the 32: ask with difference: true.']
            : []),
          ...(temperature ? ['One oven’s setting is no conversion into another kind of oven’s.'] : []),
          ...([from.unit, to.unit].includes('us-cup')
            ? ['A US customary cup of 236.5882365 ml; other cups are in use. Weigh instead.']
            : []),
        ],
      },
    };
  },
});
