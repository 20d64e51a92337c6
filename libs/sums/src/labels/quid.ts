import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { finished } from './ingredient-lines.js';
import { declaredOnly } from './label-spellings.js';
import { maxGrams } from '../bakery/formula.js';
import { compare, fraction, over, rounded, sumOf, times } from '../bakery/fraction.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { only, positive, shown } from '../food-safety/fields.js';

const nameError = 'a name of 1 to 120 characters';
const declaredLine = only({
  name: z.string({ error: nameError }).trim().min(1, nameError).max(120, nameError),
  grams: positive('the weight used in grams', maxGrams),
});
const hundred = fraction(100);

function whyOf(moisture: boolean, overHundred: boolean, singly: boolean): string {
  if (overHundred) {
    return `${singly ? 'An ingredient alone' : 'Together the declared ingredients'} would pass 100 % of the finished product, so the percentages are replaced by the weight used for 100 g of it.`;
  }
  return moisture
    ? 'Moisture is lost, so each percentage is the weight used over the weight of the finished product.'
    : 'Each percentage is the weight used over the weight of what went in, which is what the product weighs.';
}

/** Quantity of declared ingredients. Regulation (EU) 1169/2011 Art. 22 and Annex VIII; the 100 % is judged on exact, unrounded figures. */
export const quid = defineCalculation({
  name: 'quid',
  title: 'Quantity of the ingredients that are declared',
  input: only({
    declared: z
      .array(declaredLine, { error: 'a list of the declared ingredients with grams' })
      .min(1, 'at least one declared ingredient')
      .max(100, 'at most 100 declared ingredients'),
    finishedGrams: finished,
    ingoingGrams: positive('the weight of all ingredients together in grams, where it is known', maxGrams).optional(),
  }),
  output: z.object({
    form: z.enum(['percent', 'grams-per-100-g']),
    declared: z.array(
      z.object({ name: z.string(), percent: z.number().nullable(), gramsPer100g: z.number().nullable(), text: z.string() }),
    ),
    totalPercent: z.number().meta({ description: 'of the declared ingredients together, to 6 decimals; judged exactly' }),
    text: z.string(),
    why: z.string(),
  }),
  example: {
    declared: [
      { name: 'butter', grams: 60 },
      { name: 'flour', grams: 50 },
    ],
    finishedGrams: 100,
  },
  alsoReads: declaredOnly,
  run(given) {
    const weights = given.declared.map((line) => fraction(line.grams));
    const total = sumOf(weights);
    if (given.ingoingGrams !== undefined && compare(total, fraction(given.ingoingGrams)) > 0) {
      return refuse('unacceptable-value', 'ingoingGrams', 'at least as much as the declared ingredients weigh together');
    }
    const gained = given.ingoingGrams !== undefined && given.finishedGrams > given.ingoingGrams;
    const base = fraction(gained && given.ingoingGrams !== undefined ? given.ingoingGrams : given.finishedGrams);
    const shares = weights.map((weight) => times(over(weight, base), hundred));
    const totalPercent = times(over(total, base), hundred);
    const overHundred = compare(totalPercent, hundred) > 0;
    const moisture = given.ingoingGrams === undefined || given.finishedGrams < given.ingoingGrams;
    const lines = given.declared.map(({ name }, index) => {
      const share = rounded(shares[index] ?? hundred, 4);
      const near = shown(share, share < 1 ? 2 : 1);
      return {
        name,
        percent: overHundred ? null : share,
        gramsPer100g: overHundred ? share : null,
        text: overHundred ? `${near} g ${name}` : `${name} ${near} %`,
      };
    });
    const said = lines.map((line) => line.text);
    const joined = said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said.at(-1) ?? ''}`;
    const text = overHundred ? `${joined} per 100 g` : joined;
    const why = whyOf(
      moisture,
      overHundred,
      shares.some((share) => compare(share, hundred) > 0),
    );
    return {
      ok: true,
      value: {
        form: overHundred ? ('grams-per-100-g' as const) : ('percent' as const),
        declared: lines,
        totalPercent: rounded(totalPercent, 6),
        text,
        why,
        inputs: { ...given, ingoingGrams: given.ingoingGrams ?? null },
        explanation: `${why} The declared ingredients come to ${shown(rounded(totalPercent, 6))} %, and ${overHundred ? 'more than' : 'not more than'} 100 %: ${text}.`,
        source: 'Regulation (EU) 1169/2011 Article 22 and Annex VIII, as retained in Great Britain',
        validRange:
          'solid foods of the European Union and Great Britain; volatile ingredients and foods reconstituted or sold in liquid have rules of their own',
        cautions: [
          standardCaution,
          'Only the ingredients that the label must quantify count: those in its name, shown in words or pictures, or essential to the food.',
          ...(given.ingoingGrams === undefined ? ['What went in altogether was not given: it is taken that moisture is lost.'] : []),
          ...(gained
            ? ['The finished product weighs more than what went in: list what was taken up (such as frying fat) as an ingredient.']
            : []),
        ],
      },
    };
  },
});
