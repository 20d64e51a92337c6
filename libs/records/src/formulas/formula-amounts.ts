import { refuse, type Outcome } from '@bakehouse/kernel';
import { apportion, bakersPercents, fraction, type Fraction } from '@bakehouse/sums';
import type { FormulaContent } from '../rows/formula-content.js';

/** A line scaled: milligrams, and its share of all flours together in percent, to 0.001 %; null where no line is flour. */
export interface ScaledLine {
  readonly material: string;
  readonly name: string;
  readonly mg: number;
  readonly flour: boolean;
  readonly percent: number | null;
}
export interface Wanted {
  readonly product: string;
  readonly pieces: number;
}
export interface Scaled {
  readonly mg: number;
  readonly lines: readonly ScaledLine[];
}

/** The heaviest dough that is scaled to: ten tonnes, in milligrams. */
const maxMg = 10_000_000_000;

/**
 * Baker's percentages of a formula as written, to 0.001 %: all flours on its lines are exactly 100 % together, and flour inside what is
 * made by another formula is not counted (the sum `total-formula` does). Null for every line where none is flour. Common practice of the trade.
 */
export function formulaPercents(content: Pick<FormulaContent, 'lines'>): (number | null)[] {
  const percents = bakersPercents(content.lines.map((line) => ({ weight: weightOf(line), flour: line.flour })));
  return content.lines.map((_, i) => percents?.percents[i] ?? null);
}

/** The formula scaled to an amount in milligrams: its lines sum to it exactly, each less than 1 mg from its exact share. */
export function scaledTo(content: FormulaContent, mg: number): Outcome<Scaled> {
  if (!Number.isSafeInteger(mg) || mg <= 0 || mg > maxMg) return refuse('unacceptable-value', 'mg', `whole milligrams, 1 to ${maxMg}`);
  const shares = apportion(mg, content.lines.map(weightOf));
  const percents = formulaPercents(content);
  return {
    ok: true,
    value: {
      mg,
      lines: content.lines.map((line, i) => ({
        material: line.material,
        name: line.name,
        mg: shares[i] ?? 0,
        flour: line.flour,
        percent: percents[i] ?? null,
      })),
    },
  };
}

/** The formula scaled to so many pieces of its products at their scaling weights, with what shall be kept or lost besides, in milligrams. */
export function scaledToPieces(content: FormulaContent, wanted: readonly Wanted[], besidesMg = 0): Outcome<Scaled> {
  let mg = besidesMg;
  for (const [i, { product, pieces }] of wanted.entries()) {
    const of = content.products.find((p) => p.product === product);
    if (!of) return refuse('unknown-material', `${i}.product`, 'a product of this formula');
    if (!Number.isSafeInteger(pieces) || pieces < 0)
      return refuse('unacceptable-value', `${i}.pieces`, 'a whole number of pieces, zero or more');
    mg += pieces * of.scalingMg;
  }
  return scaledTo(content, mg);
}

function weightOf(line: FormulaContent['lines'][number]): Fraction {
  return fraction(line.mg);
}
