import * as z from 'zod';
import { apportion, bakersPercents } from './apportion.js';
import { alsoReads } from './formula-spellings.js';
import { asWritten, formulaFault, ingredients, takenApart } from './formula.js';
import { fraction, nearest, over, rounded, sumOf, times } from './fraction.js';
import { defineCalculation } from '../calculation.js';
import { only, shown } from '../food-safety/fields.js';

const view = z.enum(['total', 'as-written'], { error: 'total (every preferment taken apart) or as-written' });
const says = {
  total: 'Shown is the total formula: every preferment is taken apart and its flour counts towards the 100 %.',
  'as-written': 'Shown is the formula as written: a preferment is one line and the flour inside it is not in the 100 %.',
} as const;

/** The total formula: preferments taken apart, their flour counted; lines sum exactly to the dough. Common practice of the trade. */
export const totalFormula = defineCalculation({
  name: 'total-formula',
  title: 'The total formula, with each preferment’s flour counted',
  input: only({ ingredients, view: view.optional() }),
  output: z.object({
    view,
    lines: z.array(
      z.object({
        name: z.string(),
        grams: z.number(),
        flour: z.boolean(),
        bakersPercent: z.number(),
        prefermentGrams: z.number().meta({ description: 'how much of the grams is in preferments' }),
      }),
    ),
    totalGrams: z.number(),
    flourGrams: z.number(),
    totalPercent: z.number(),
    prefermentedFlourPercent: z
      .number()
      .nullable()
      .meta({ description: 'of all flour, how much is in preferments; null in the view as written' }),
  }),
  example: {
    ingredients: [
      {
        name: 'leaven',
        grams: 2180,
        flour: false,
        preferment: [
          { name: 'rye flour', grams: 1090, flour: true },
          { name: 'water', grams: 1090, flour: false },
        ],
      },
      { name: 'white flour', grams: 8720, flour: true },
      { name: 'water', grams: 6758, flour: false },
      { name: 'salt', grams: 218, flour: false },
    ],
  },
  alsoReads,
  run(given) {
    const shownView = given.view ?? 'total';
    const fault = formulaFault(given.ingredients, shownView);
    if (fault !== null) return fault;
    const apart = shownView === 'total' ? takenApart(given.ingredients) : { ok: true as const, lines: asWritten(given.ingredients) };
    if (!apart.ok) return apart;
    const weights = apart.lines.map((line) => line.weight);
    const totalMg = Number(nearest(times(sumOf(weights), fraction(1000))));
    const shares = apportion(totalMg, weights);
    const percents = bakersPercents(apart.lines);
    const lines = apart.lines.map((line, index) => ({
      name: line.name,
      grams: (shares[index] ?? 0) / 1000,
      flour: line.flour,
      bakersPercent: percents?.percents[index] ?? 0,
      prefermentGrams: Math.min(rounded(line.inPreferment, 3), (shares[index] ?? 0) / 1000),
    }));
    const flours = apart.lines.filter((line) => line.flour);
    const flourWeight = sumOf(flours.map((line) => line.weight));
    const fermented = over(times(sumOf(flours.map((line) => line.inPreferment)), fraction(100)), flourWeight);
    const flourMg = lines.reduce((sum, line, index) => sum + (line.flour ? (shares[index] ?? 0) : 0), 0);
    const prefermentedFlourPercent = shownView === 'total' ? rounded(fermented, 3) : null;
    return {
      ok: true,
      value: {
        view: shownView,
        lines,
        totalGrams: totalMg / 1000,
        flourGrams: flourMg / 1000,
        totalPercent: percents?.totalPercent ?? 0,
        prefermentedFlourPercent,
        inputs: { ...given, view: shownView },
        explanation:
          `${says[shownView]} ${shown(flourMg / 1000)} g of flour are 100 %, and the ${lines.length} lines sum to ${shown(totalMg / 1000)} g exactly.` +
          (prefermentedFlourPercent === null ? '' : ` ${shown(prefermentedFlourPercent)} % of the flour is in preferments.`),
        source: 'Baker’s percentages: common practice of the trade, no published source',
        validRange: null,
        cautions: [
          'Say with every printed percentage which of the two views it belongs to.',
          'The parts of a preferment are taken in proportion to the weight on its line; what ferments away is not deducted.',
        ],
      },
    };
  },
});
