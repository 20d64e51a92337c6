import type { FormulaView } from '@bakehouse/contracts';
import { caution, formatGrams } from '@bakehouse/kernel';
import {
  formulaAllergens,
  formulaPercents,
  productAllergens,
  totalOf,
  type AllergenAnswer,
  type FormulaContent,
  type FormulaLookup,
} from '@bakehouse/records';
import { allergenSourcesOf, formulaLookup, type Reference } from './reference.js';
import type { FormulaVersion } from './versions.js';
import type { Wanted } from './wanted.js';

const says = {
  'as-written': 'The formula as written: a preferment is one line and the flour inside it is not in the 100 %.',
  total: 'The total formula: every preferment is taken apart and its flour counts towards the 100 %.',
} as const;

export interface FormulaShown {
  readonly versions: readonly FormulaVersion[];
  readonly version: FormulaVersion;
  readonly reference: Reference;
  readonly wanted: Wanted | null;
  readonly now: string;
}

/** One formula as it is shown: a version of it in both views, its history, what it contains, and scaled where that was asked for. Pure. */
export function formulaViewOf({ versions, version, reference, wanted, now }: FormulaShown): FormulaView {
  const { formula, content } = version;
  const newest = reference.versions.find((v) => v.formula === formula);
  const retired = newest?.retired ?? null;
  const sources = allergenSourcesOf(reference, now, { formula, content });
  const lookup = formulaLookup(reference);
  return {
    formula,
    name: newest?.name ?? version.name,
    type: version.type,
    retired,
    shown: {
      id: version.id,
      number: version.number,
      name: version.name,
      since: version.since,
      inForce: version.id === newest?.id && retired === null,
      content,
    },
    versions: versions.map(({ id, number, name, since, signed, note }) => ({ id, number, name, since, signed, note })),
    ...viewsOf(formula, content, lookup),
    allergens: shownAllergens(formulaAllergens(content, sources)),
    products: content.products.flatMap(({ product, name }) => {
      const answer = productAllergens(content, product, sources);
      return answer ? [{ product, name, allergens: shownAllergens(answer) }] : [];
    }),
    scaled: wanted && { wanted: wanted.says, ...weight(wanted.scaled.mg), ...viewsOf(formula, withWeights(content, wanted), lookup) },
    caution,
  };
}

export const shownAllergens = ({ contains, mayContain, notKnown, checkedSince }: AllergenAnswer) => ({
  contains: [...contains],
  mayContain: [...mayContain],
  notKnown: [...notKnown],
  checkedSince,
});

const weight = (mg: number) => ({ mg, grams: formatGrams(mg, 'metric'), pounds: formatGrams(mg, 'pounds-and-ounces') });
const withWeights = (content: FormulaContent, { scaled }: Wanted): FormulaContent => ({
  ...content,
  lines: content.lines.map((line, i) => ({ ...line, mg: scaled.lines[i]?.mg ?? 0 })),
});

function viewsOf(formula: string, content: FormulaContent, lookup: FormulaLookup): Pick<FormulaView, 'asWritten' | 'total'> {
  const percents = formulaPercents(content);
  const total = totalOf(formula, content, lookup);
  const sum = (lines: FormulaContent['lines']): number => lines.reduce((mg, l) => mg + l.mg, 0);
  return {
    asWritten: {
      view: 'as-written',
      says: says['as-written'],
      totalMg: sum(content.lines),
      flourMg: sum(content.lines.filter((l) => l.flour)),
      lines: content.lines.map(({ material, name, flour, madeBy, mg }, i) => ({
        material,
        name,
        flour,
        madeBy,
        percent: percents[i] ?? null,
        ...weight(mg),
      })),
    },
    total: {
      view: 'total',
      says: says.total,
      totalMg: total.totalMg,
      flourMg: total.flourMg,
      prefermentedFlourPercent: total.prefermentedFlourPpm === null ? null : total.prefermentedFlourPpm / 10_000,
      lines: total.lines.map(({ material, name, flour, percent, mg, prefermentMg }) => ({
        material,
        name,
        flour,
        percent,
        prefermentMg,
        ...weight(mg),
      })),
    },
  };
}
