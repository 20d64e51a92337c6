import {
  canConvert,
  convertExact,
  dimensionOf,
  guardedVerdict as verdict,
  judge,
  refuse,
  unitNames,
  unitOr,
  type GuardedVerdict,
  type Refused,
} from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import * as z from 'zod';
import { only } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { changed, isFields, type Fields } from '../spellings.js';

const greatest = 999_999_999_999; // with 12 decimals that is 24 figures, which every conversion keeps exactly

/** A figure as a number or as decimal text; kept as text, so that what is compared is what was written. */
function decimal(what: string, sign: 'any' | 'zero or more' = 'any') {
  const error = `${what}, a decimal number${sign === 'any' ? '' : ' of zero or more'}, such as 4.5 or "4.5", at most 12 digits before the point and 12 after`;
  const least = sign === 'any' ? -greatest : 0;
  const text = z.string({ error }).regex(sign === 'any' ? /^-?\d{1,12}(\.\d{1,12})?$/ : /^\d{1,12}(\.\d{1,12})?$/, error);
  return z.union([z.number({ error }).min(least, error).max(greatest, error), text], { error }).meta({ description: what });
}

const unitError = `a unit, such as degC or °C: one of ${unitNames.join(', ')}`;
const unit = z.enum(unitNames, { error: unitError }).meta({ description: 'a unit; other spellings, such as °C, are read too' });
const withUnit = (raw: Fields): Fields => changed(raw, 'unit', unitOr);

const input = only({
  value: decimal('the reading'),
  unit,
  limit: only({
    min: decimal('the lower limit').nullable().optional(),
    max: decimal('the upper limit').nullable().optional(),
    unit,
  }),
  halfWidth: decimal('how far the reading may be from the truth, as a difference in the limit’s unit', 'zero or more'),
});
type Given = z.output<typeof input>;

const plain = (figure: number | string): string => new Decimal(figure).toFixed();
const optional = (figure: number | string | null | undefined): string | null =>
  figure === null || figure === undefined ? null : plain(figure);

export const guardedVerdict = defineCalculation({
  name: 'guarded-verdict',
  title: 'A reading against a limit, with the doubt in the reading',
  input,
  output: z.object({
    verdict,
    valueInLimitUnit: z.string().meta({ description: 'rounded to 12 decimals for reading; the comparison itself is exact' }),
  }),
  example: { value: 75.2, unit: 'degC', limit: { min: '165', unit: 'degF' }, halfWidth: '1' },
  alsoReads: (raw) => changed(withUnit(raw), 'limit', (limit) => (isFields(limit) ? withUnit(limit) : limit)),
  run(given) {
    const [min, max, halfWidth] = [optional(given.limit.min), optional(given.limit.max), plain(given.halfWidth)];
    const refused = fault(given, min, max);
    if (refused !== null) return refused;
    const figure = plain(given.value);
    const limit = { min, max, unit: given.limit.unit };
    const verdict = judge({ figure, unit: given.unit }, limit, halfWidth);
    const converted = convertExact(figure, given.unit, limit.unit).toDecimalPlaces(12).toFixed();
    return {
      ok: true,
      value: {
        verdict,
        valueInLimitUnit: converted,
        inputs: { value: figure, unit: given.unit, limit, halfWidth },
        explanation: explain(
          verdict,
          `${figure} ${given.unit}`,
          `${converted} ${limit.unit}`,
          limits(min, max, limit.unit),
          `${halfWidth} ${limit.unit}`,
        ),
        source:
          'Guard band: a reading is decided only where it is at least its half-width away from the limit (the way of JCGM 106:2012, from memory)',
        validRange: null,
        cautions: [
          standardCaution,
          ...(verdict === 'unsure' ? ['Measure again with a better instrument, or treat the reading as outside.'] : []),
          ...(new Decimal(halfWidth).isZero() ? ['A half-width of 0 says that the instrument is never wrong.'] : []),
        ],
      },
    };
  },
});

function fault(given: Given, min: string | null, max: string | null): Refused | null {
  if (min === null && max === null) return refuse('unacceptable-value', 'limit', 'a limit with min, with max, or with both');
  if (min !== null && max !== null && new Decimal(min).gt(max))
    return refuse('unacceptable-value', 'limit.max', `a figure of ${min} or more, not below min`);
  if (!canConvert(given.unit, given.limit.unit)) return refuse('unacceptable-value', 'unit', `a unit that converts to ${given.limit.unit}`);
  if (dimensionOf(given.unit) === 'temperature' && convertExact(plain(given.value), given.unit, 'degC').lt('-273.15')) {
    return refuse('unacceptable-value', 'value', 'a temperature above absolute zero, −273.15 °C');
  }
  return null;
}

function limits(min: string | null, max: string | null, name: string): string {
  if (min === null) return `at most ${max} ${name}`;
  return max === null ? `at least ${min} ${name}` : `from ${min} to ${max} ${name}`;
}

function explain(verdict: GuardedVerdict, reading: string, converted: string, limit: string, halfWidth: string): string {
  const as = reading === converted ? '' : `, which is ${converted}`;
  const found = {
    within: `it meets the limit, and by no less than the ${halfWidth} that the reading may be off`,
    outside: `it does not meet the limit, and by no less than the ${halfWidth} that the reading may be off`,
    unsure: `it is closer to the limit than the ${halfWidth} that it may be off, so it cannot be decided`,
  } as const satisfies Record<GuardedVerdict, string>;
  return `The limit is ${limit}; the reading is ${reading}${as}: ${found[verdict]}.`;
}
