import { refuse, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { apportion, bakersPercents } from './apportion.js';
import { alsoReads } from './formula-spellings.js';
import { asWritten, formulaFault, ingredients, maxGrams, partsOf, type Ingredient } from './formula.js';
import { fraction, minus, nearest, over, times, type Fraction } from './fraction.js';
import { defineCalculation } from '../calculation.js';
import { between, only, positive, shown } from '../food-safety/fields.js';

const steps = [0.001, 0.01, 0.1, 1, 5] as const;
const stepNames = 'one of 0.001, 0.01, 0.1, 1 and 5 g';
const pieceError = 'a whole number of pieces from 1 to 1000000';

const input = only({
  ingredients,
  pieces: z
    .int({ error: pieceError })
    .min(1, pieceError)
    .max(1_000_000, pieceError)
    .optional()
    .meta({ description: 'with scalingGrams: how many pieces' }),
  scalingGrams: positive('the dough weight of one piece in grams', maxGrams).optional(),
  doughGrams: positive('the dough wanted in grams, in place of pieces and scalingGrams', maxGrams).optional(),
  lossPercent: between('what is lost between mixing and dividing, in percent of the dough mixed', 0, 99.9).optional(),
  roundToGrams: z
    .literal(steps, { error: stepNames })
    .optional()
    .meta({ description: `the step to which the lines are rounded: ${stepNames}; 0.001 when left out` }),
});
type Given = z.output<typeof input>;

const scaledPart = z.object({ name: z.string(), grams: z.number(), flour: z.boolean() });
const scaledLine = z.object({
  name: z.string(),
  grams: z.number(),
  flour: z.boolean(),
  bakersPercent: z.number().meta({ description: 'of all flours on the lines together, to 0.001 %' }),
  parts: z.array(scaledPart).nullable().meta({ description: 'the parts of a preferment, which sum to its line' }),
});

function wanted(given: Given): { grams: Fraction; how: string } | Refused {
  const { pieces, scalingGrams, doughGrams } = given;
  if (doughGrams !== undefined) {
    if (pieces !== undefined || scalingGrams !== undefined)
      return refuse('unacceptable-value', 'doughGrams', 'either doughGrams, or pieces with scalingGrams: not both');
    return { grams: fraction(doughGrams), how: `${shown(doughGrams)} g of dough` };
  }
  if (pieces === undefined)
    return refuse('unacceptable-value', 'pieces', 'a number of pieces with scalingGrams, or doughGrams in their place');
  if (scalingGrams === undefined)
    return refuse('unacceptable-value', 'scalingGrams', 'the dough weight of one piece in grams, with pieces');
  return { grams: times(fraction(pieces), fraction(scalingGrams)), how: `${pieces} pieces of ${shown(scalingGrams)} g` };
}

function partsScaled(line: Ingredient, units: number, stepMg: number) {
  const parts = partsOf(line);
  if (parts === null) return null;
  const shares = apportion(
    units,
    parts.map((p) => fraction(p.grams)),
  );
  return parts.map((p, index) => ({ name: p.name, grams: ((shares[index] ?? 0) * stepMg) / 1000, flour: p.flour }));
}

const prefermentCaution =
  'These are percentages as written: flour inside a preferment is not in the 100 %. total-formula shows the view in which it counts.';
const vanished = 'A line came out as 0 g at this step: take a finer roundToGrams.';
const namedCaution = 'Flour on lines that go into a preferment is counted in the 100 %, since it is listed as a line of its own.';

/** Scales a formula to an amount of dough; the lines sum to it exactly. Baker's percentages: common practice of the trade. */
export const scaleFormula = defineCalculation({
  name: 'scale-formula',
  title: 'A formula scaled to pieces or to an amount of dough',
  input,
  output: z.object({
    lines: z.array(scaledLine),
    doughGrams: z.number().meta({ description: 'what the lines sum to: the dough to mix' }),
    wantedGrams: z.number(),
    lossGrams: z.number(),
    flourGrams: z.number(),
    totalPercent: z.number(),
    view: z.enum(['as-written', 'total']).meta({ description: 'as-written: a preferment is one line and its flour is not in the 100 %' }),
  }),
  example: {
    ingredients: [
      { name: 'white flour', grams: 1000, flour: true },
      { name: 'water', grams: 600, flour: false },
      { name: 'yeast', grams: 2, flour: false },
      { name: 'salt', grams: 10, flour: false },
    ],
    pieces: 4,
    scalingGrams: 400,
    lossPercent: 2,
  },
  alsoReads,
  run(given) {
    const fault = formulaFault(given.ingredients, 'as-written');
    if (fault !== null) return fault;
    const aim = wanted(given);
    if ('ok' in aim) return aim;
    const lossPercent = given.lossPercent ?? 0;
    const step = given.roundToGrams ?? 0.001;
    const stepMg = step * 1000;
    const kept = over(minus(fraction(100), fraction(lossPercent)), fraction(100));
    const units = Number(nearest(over(over(aim.grams, kept), fraction(step))));
    if (units === 0 || units * stepMg > maxGrams * 1000)
      return refuse('unacceptable-value', 'doughGrams', `an amount of dough from ${step} g to ${maxGrams} g, loss included`);
    const exact = asWritten(given.ingredients);
    const shares = apportion(
      units,
      exact.map((line) => line.weight),
    );
    const percents = bakersPercents(exact);
    const lines = given.ingredients.map((line, index) => ({
      name: line.name,
      grams: ((shares[index] ?? 0) * stepMg) / 1000,
      flour: line.flour,
      bakersPercent: percents?.percents[index] ?? 0,
      parts: partsScaled(line, shares[index] ?? 0, stepMg),
    }));
    const doughMg = units * stepMg;
    const wantedMg = Number(nearest(times(aim.grams, fraction(1000))));
    const flourMg = lines.reduce((sum, line) => sum + (line.flour ? Math.round(line.grams * 1000) : 0), 0);
    const preferments = given.ingredients.filter((line) => line.preferment !== undefined && line.preferment !== false);
    const named = preferments.length > 0 && preferments.every((line) => typeof line.preferment === 'string');
    return {
      ok: true,
      value: {
        lines,
        doughGrams: doughMg / 1000,
        wantedGrams: wantedMg / 1000,
        lossGrams: (doughMg - wantedMg) / 1000,
        flourGrams: flourMg / 1000,
        totalPercent: percents?.totalPercent ?? 0,
        view: named ? ('total' as const) : ('as-written' as const),
        inputs: { ...given, lossPercent, roundToGrams: step },
        explanation:
          `${aim.how}${lossPercent === 0 ? '' : ` and a loss of ${shown(lossPercent)} % of the dough mixed`} need ${shown(doughMg / 1000)} g of dough. ` +
          `It is divided in proportion to the formula and rounded to ${step} g so that the ${lines.length} lines sum to it exactly (largest remainder). All flours together are 100 %.`,
        source: 'Baker’s percentages: common practice of the trade, no published source',
        validRange: null,
        cautions: [
          ...(preferments.length === 0 ? [] : [named ? namedCaution : prefermentCaution]),
          ...(lines.some((line, index) => line.grams === 0 && (given.ingredients[index]?.grams ?? 0) > 0) ? [vanished] : []),
          'Mixing time, friction and baking do not scale with the weight of a dough: judge a new size by a trial.',
        ],
      },
    };
  },
});
