import { allergen, allergenMappingNotes, refuse, usNine, type Allergen } from '@bakehouse/kernel';
import * as z from 'zod';
import { allergenWord, inCapitals } from './emphasis.js';
import { finished, inOrder, lines, listed, type Line, type Listed } from './ingredient-lines.js';
import { alsoReads } from './label-spellings.js';
import { allergensOf, mayContainOf, orderedItems, waterIn, type Item, type Regime } from './ordered-list.js';
import { compare, fraction, rounded, sumOf } from '../bakery/fraction.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { only, shown } from '../food-safety/fields.js';

const smallError = 'one of 2, 1.5, 1 and 0.5';
const segment = z.object({ text: z.string(), emphasised: z.boolean() });

/** “Contains” statement of the US: every major allergen of the food, in one place. 21 USC 343(w). */
function containsStatement(all: readonly Allergen[]): string | null {
  const major = usNine.flatMap(({ members }) => members).filter((one) => all.includes(one));
  return major.length === 0 ? null : `Contains: ${major.map((one) => allergenWord[one]).join(', ')}`;
}

function textOf(items: readonly Item[], regime: Regime, usSmall: number | undefined): string {
  const said = (some: readonly Item[]) => some.map((item) => inCapitals(item.segments)).join(', ');
  const small = items.filter((item) => item.group === 'small');
  if (regime !== 'us' || small.length === 0) return `Ingredients: ${said(items)}`;
  const large = said(items.filter((item) => item.group === 'by-weight'));
  return `Ingredients: ${large}${large === '' ? '' : ', '}contains ${usSmall ?? 2}% or less of: ${said(small)}`;
}

const isUkFlour = (line: { name: string; allergens?: readonly Allergen[] | undefined; parts?: readonly unknown[] | undefined }): boolean =>
  /flour/i.test(line.name) &&
  (line.allergens ?? []).includes('wheat') &&
  line.parts === undefined &&
  !/whole\s?(meal|wheat|grain)/i.test(line.name);

function cautionsFor(regime: Regime, given: readonly Line[], contains: readonly Allergen[], may: readonly Allergen[]): string[] {
  const ukFlour = regime === 'gb' && given.flatMap((line) => [line, ...(line.parts ?? [])]).some(isUkFlour);
  return [
    standardCaution,
    'A list is only as right as the specifications of today’s lots. An allergen in a processing aid or on a tin is declared although the aid is no ingredient.',
    ...(ukFlour
      ? [
          'UK wheat flour other than wholemeal carries statutory added nutrients (calcium carbonate, iron, niacin, thiamin): take its own list from the supplier’s specification.',
        ]
      : []),
    ...(regime !== 'us' && given.some((line) => line.parts !== undefined)
      ? ['The law lets some compound ingredients below 2 % go without their own list, never without their allergens: here all are listed.']
      : []),
    ...(regime !== 'us'
      ? [
          'The 5 % for water does not hold for meat, meat preparations and unprocessed fish and molluscs. Ingredients below 2 % may stand in any order after the others.',
        ]
      : []),
    ...(may.length > 0
      ? ['“May contain” follows a risk assessment; it never replaces cleaning, and never stands in for what is contained.']
      : []),
    ...(contains.includes('sulphites')
      ? ['Sulphites are declared above 10 mg/kg or 10 mg/l, counted as SO₂: ask the supplier for the figure.']
      : []),
    ...(regime === 'us' && contains.some((one) => one === 'fish' || one === 'crustaceans')
      ? ['Name the species of the fish or Crustacean shellfish.']
      : []),
    ...(regime === 'us' ? allergenMappingNotes.slice(0, 3) : []),
  ];
}

const unseen = (may: readonly Allergen[], contains: readonly Allergen[]) => may.filter((one) => !contains.includes(one));
const totals = (all: readonly Listed[]) => ({ contains: inOrder(all.flatMap(allergensOf)), may: inOrder(all.flatMap(mayContainOf)) });

/** The ingredient list of a product. EU and GB: Regulation 1169/2011 Art. 18 to 21, Annexes II and VII. US: 21 CFR 101.4, 21 USC 343(w). */
export const ingredientList = defineCalculation({
  name: 'ingredient-list',
  title: 'The ingredient list of a label',
  input: only({
    lines,
    finishedGrams: finished,
    regime: z.enum(['eu', 'gb', 'us'], { error: 'eu, gb or us' }),
    smallPercent: z.literal([2, 1.5, 1, 0.5], { error: smallError }).optional().meta({ description: 'US only: “contains N % or less of”' }),
  }),
  output: z.object({
    list: z.array(
      z.object({
        name: z.string(),
        grams: z.number().meta({ description: 'as counted: water in EU and GB by what remains of it' }),
        percent: z.number().meta({ description: 'of the finished product' }),
        group: z.enum(['by-weight', 'small']),
        allergens: z.array(allergen),
        segments: z.array(segment),
      }),
    ),
    groups: z.object({ byWeight: z.array(z.string()), small: z.array(z.string()) }),
    text: z.string().meta({ description: 'emphasised words in capitals, for where there is no bold' }),
    allergens: z.array(allergen),
    emphasised: z.array(z.string()).meta({ description: 'the words to emphasise; none under the US rules, which have the statement' }),
    containsStatement: z.string().nullable().meta({ description: 'US only' }),
    mayContain: z.array(allergen),
    mayContainText: z.string().nullable(),
    waterDeclared: z.boolean(),
    water: z.object({ grams: z.number(), percent: z.number(), declared: z.boolean(), why: z.string() }).nullable(),
  }),
  example: {
    lines: [
      { name: 'wheat flour', grams: 1000, allergens: ['wheat'] },
      { name: 'water', grams: 600 },
      { name: 'salt', grams: 20 },
      { name: 'yeast', grams: 10 },
    ],
    finishedGrams: 1410,
    regime: 'eu',
  },
  alsoReads,
  run(given) {
    const { regime, smallPercent } = given;
    if (smallPercent !== undefined && regime !== 'us')
      return refuse('unacceptable-value', 'smallPercent', 'nothing with this regime: it belongs to the US rules');
    const found = listed(given.lines);
    if (!found.ok) return found;
    const weight = fraction(given.finishedGrams);
    const ingoing = sumOf(found.all.map((one) => one.weight));
    if (compare(weight, ingoing) > 0)
      return refuse(
        'unacceptable-value',
        'finishedGrams',
        `at most what went in, ${rounded(ingoing, 3)} g: list what was taken up as a line`,
      );
    const water = waterIn(found.all, weight, regime);
    const list = orderedItems(found.all, water, weight, regime, smallPercent);
    const { contains, may } = totals(found.all);
    const mayContain = unseen(may, contains);
    const named = (group: Item['group']) => list.filter((item) => item.group === group).map((item) => item.name);
    const waterShown =
      water === null
        ? null
        : { grams: rounded(water.grams, 3), percent: rounded(water.percent, 4), declared: water.declared, why: water.why };
    const law = regime === 'us' ? 'the weight that went in' : 'the weight that went in, water by what remains of it';
    return {
      ok: true,
      value: {
        list,
        groups: { byWeight: named('by-weight'), small: named('small') },
        text: textOf(list, regime, smallPercent),
        allergens: contains,
        emphasised: regime === 'us' ? [] : contains.map((one) => allergenWord[one]),
        containsStatement: regime === 'us' ? containsStatement(contains) : null,
        mayContain,
        mayContainText: mayContain.length === 0 ? null : `May contain: ${mayContain.map((one) => allergenWord[one]).join(', ')}`,
        waterDeclared: water?.declared ?? false,
        water: waterShown,
        inputs: { ...given, ingoingGrams: rounded(ingoing, 3), smallPercent: smallPercent ?? null },
        explanation:
          `The ingredients stand in descending order of ${law}.` +
          (waterShown === null
            ? ' No water is added.'
            : ` ${waterShown.why} What remains is ${shown(waterShown.grams)} g in ${shown(given.finishedGrams)} g, ${shown(waterShown.percent, 2)} %.`),
        source:
          regime === 'us'
            ? '21 CFR 101.4(a) and 21 USC 343(w) (from memory of the texts)'
            : `Regulation (EU) 1169/2011 Articles 18 to 21, Annexes II and VII (from memory of the text)${regime === 'gb' ? ', as retained in Great Britain' : ''}`,
        validRange: 'prepacked bakery products; loose sale, and foods with rules of their own, differ',
        cautions: cautionsFor(regime, given.lines, contains, may),
      },
    };
  },
});
