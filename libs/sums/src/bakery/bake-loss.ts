import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { maxGrams } from './formula.js';
import { fraction, minus, over, rounded, times, type Fraction } from './fraction.js';
import { defineCalculation } from '../calculation.js';
import { only, positive, shown } from '../food-safety/fields.js';

const lossError = 'the loss in percent of the dough, a number from 0 to less than 100';
const two = 'exactly two of doughGrams, bakedGrams and percent';
const hundred = fraction(100);

interface Three {
  readonly dough: Fraction;
  readonly baked: Fraction;
  readonly percent: Fraction;
  readonly how: string;
}

const keptOf = (percent: Fraction) => over(minus(hundred, percent), hundred);
const whole = (figure: number | undefined) => (figure === undefined ? null : fraction(figure));

function third(dough: Fraction | null, baked: Fraction | null, percent: Fraction | null): Three | null {
  if (dough !== null && baked !== null && percent === null) {
    return { dough, baked, percent: times(over(minus(dough, baked), dough), hundred), how: 'loss = (dough − baked) ÷ dough' };
  }
  if (dough !== null && baked === null && percent !== null)
    return { dough, baked: times(dough, keptOf(percent)), percent, how: 'baked = dough × (1 − loss)' };
  if (dough === null && baked !== null && percent !== null)
    return { dough: over(baked, keptOf(percent)), baked, percent, how: 'dough = baked ÷ (1 − loss)' };
  return null;
}

/** Dough weight, baked weight and loss: any two give the third. Grams to a milligram, percent to six decimals. */
export const bakeLoss = defineCalculation({
  name: 'bake-loss',
  title: 'Scaling weight, baked weight and bake loss',
  input: only({
    doughGrams: positive('the dough weight in grams', maxGrams).optional(),
    bakedGrams: positive('the baked weight in grams', maxGrams).optional(),
    percent: z
      .number({ error: lossError })
      .min(0, lossError)
      .lt(100, lossError)
      .optional()
      .meta({ description: 'the loss in percent of the dough weight' }),
  }),
  output: z.object({ doughGrams: z.number(), bakedGrams: z.number(), percent: z.number(), lossGrams: z.number() }),
  example: { bakedGrams: 400, percent: 12 },
  run(given) {
    const all = [given.doughGrams, given.bakedGrams, given.percent];
    const found = third(whole(given.doughGrams), whole(given.bakedGrams), whole(given.percent));
    if (found === null) {
      const field = all.every((figure) => figure !== undefined) ? 'percent' : given.doughGrams === undefined ? 'doughGrams' : 'bakedGrams';
      return refuse('unacceptable-value', field, two);
    }
    if (found.percent.num < 0n) {
      return refuse('unacceptable-value', 'bakedGrams', 'at most doughGrams: a gain (frying fat, filling, glaze) is no bake loss');
    }
    const answer = {
      doughGrams: rounded(found.dough, 3),
      bakedGrams: rounded(found.baked, 3),
      percent: rounded(found.percent, 6),
      lossGrams: rounded(minus(found.dough, found.baked), 3),
    };
    return {
      ok: true,
      value: {
        ...answer,
        inputs: { doughGrams: given.doughGrams ?? null, bakedGrams: given.bakedGrams ?? null, percent: given.percent ?? null },
        explanation: `${found.how}: ${shown(answer.doughGrams)} g of dough become ${shown(answer.bakedGrams)} g baked with a loss of ${shown(answer.percent)} % of the dough.`,
        source: 'Definition of the loss as a share of the dough weight: common practice of the trade, no published source',
        validRange: 'a loss from 0 to below 100 % of the dough weight',
        cautions: [
          'The loss is of the dough weight, not of the baked weight: 12 % off 400 g of bread is not 48 g more dough.',
          'A loss belongs to one product, oven and time: weigh before and after, and judge packed weight by average-quantity.',
        ],
      },
    };
  },
});
