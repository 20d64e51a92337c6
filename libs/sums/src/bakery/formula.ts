import { refuse, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { apportion } from './apportion.js';
import { fraction, nearest, plus, ratio, times, type Fraction } from './fraction.js';
import { between, only } from '../food-safety/fields.js';

export const maxGrams = 100_000_000;
export const grams = (what: string) => between(`${what} in grams`, 0, maxGrams);
export const maxLines = 200;
const name = z
  .string({ error: 'a name of 1 to 120 characters' })
  .trim()
  .min(1, 'a name of 1 to 120 characters')
  .max(120, 'a name of 1 to 120 characters');
const flour = z.boolean({ error: 'true for every flour, else false' });

const part = only({ name, grams: grams('the weight in the preferment'), flour });
const preferment = z.union([z.string().trim().min(1).max(120), z.array(part).min(1).max(40), z.boolean()], {
  error:
    'the parts [{name, grams, flour}] of a preferment line (1 to 40), or the name of the preferment that this ingredient goes into, or true where its parts are not known',
});
const ingredient = only({ name, grams: grams('the weight'), flour, preferment: preferment.optional() });
export type Ingredient = z.output<typeof ingredient>;

/** The lines of a formula: flours marked, a preferment as its parts, or each part with the name of its preferment. */
export const ingredients = z
  .array(ingredient, { error: 'a list of ingredients' })
  .min(1, 'at least one ingredient')
  .max(maxLines, `at most ${maxLines} ingredients`);

export interface ExactLine {
  readonly name: string;
  readonly flour: boolean;
  readonly weight: Fraction;
  readonly inPreferment: Fraction;
}

export const partsOf = (line: Ingredient) => (Array.isArray(line.preferment) ? line.preferment : null);
/** A line that is itself a preferment: it does not count as flour as written, even if its parts do. */
export const isPreferment = (line: Ingredient): boolean => line.preferment === true || partsOf(line) !== null;

/** Below this share of the whole, percentages of the flour mean nothing. */
const leastFlour = 1e-6;
const leastFlourGrams = 0.001;
const enoughFlour =
  'at least one ingredient of 0.001 g or more with flour: true, since all flours together are 100 %, and flour above a millionth of the whole';

function flourInside(line: Ingredient): number {
  const parts = partsOf(line) ?? [];
  const whole = parts.reduce((sum, p) => sum + p.grams, 0);
  return parts.reduce((sum, p) => sum + (p.flour && whole > 0 ? (line.grams * p.grams) / whole : 0), 0);
}

/** Refuses formulas that have no baker's percentages. `total`: the parts of every preferment must be known. */
export function formulaFault(lines: readonly Ingredient[], view: 'as-written' | 'total'): Refused | null {
  for (const [index, line] of lines.entries()) {
    const parts = partsOf(line);
    if (isPreferment(line) && line.flour) {
      return refuse('unacceptable-value', `ingredients.${index}.flour`, 'false for a preferment: its flour is counted from its parts');
    }
    if (parts !== null && parts.every((p) => micrograms(p.grams) === 0)) {
      return refuse('unacceptable-value', `ingredients.${index}.preferment`, 'parts that weigh more than 0 g together');
    }
    if (view === 'total' && line.preferment === true) {
      return refuse(
        'unacceptable-value',
        `ingredients.${index}.preferment`,
        'the preferment’s parts [{name, grams, flour}]: the total formula counts its flour',
      );
    }
  }
  const flourGrams = lines.reduce((sum, line) => sum + (line.flour ? line.grams : view === 'total' ? flourInside(line) : 0), 0);
  const wholeGrams = lines.reduce((sum, line) => sum + line.grams, 0);
  return flourGrams >= leastFlourGrams && flourGrams > wholeGrams * leastFlour
    ? null
    : refuse('unacceptable-value', 'ingredients', enoughFlour);
}

/** A weight in whole micrograms: one denominator for all lines, since sums of unlike ones grow without bound. */
export const micrograms = (weight: number): number => Number(nearest(times(fraction(weight), fraction(1_000_000))));
export const exactly = (whole: number): Fraction => ratio(BigInt(whole), 1_000_000n);

/** Every line as written, exact: a preferment is one line. */
export function asWritten(lines: readonly Ingredient[]): ExactLine[] {
  return lines.map((line) => {
    const weight = exactly(micrograms(line.grams));
    return {
      name: line.name,
      flour: line.flour,
      weight,
      inPreferment: typeof line.preferment === 'string' || isPreferment(line) ? weight : fraction(0),
    };
  });
}

/**
 * Every preferment taken apart in proportion and lines of one name put together, in order of first appearance, to a microgram. Refuses a name that is
 * flour on one line and not on another.
 */
export function takenApart(lines: readonly Ingredient[]): { ok: true; lines: ExactLine[] } | Refused {
  const found = new Map<string, ExactLine>();
  for (const [index, line] of lines.entries()) {
    const parts = partsOf(line);
    const whole = micrograms(line.grams);
    const shares =
      parts === null
        ? []
        : apportion(
            whole,
            parts.map((p) => exactly(micrograms(p.grams))),
          );
    const weighed =
      parts === null
        ? [{ name: line.name, flour: line.flour, weight: exactly(whole) }]
        : parts.map((p, at) => ({ name: p.name, flour: p.flour, weight: exactly(shares[at] ?? 0) }));
    for (const one of weighed) {
      const key = one.name.toLowerCase();
      const before = found.get(key);
      if (before !== undefined && before.flour !== one.flour) {
        return refuse(
          'unacceptable-value',
          `ingredients.${index}`,
          `“${one.name}” either as flour on every line or on none: rename one of the two`,
        );
      }
      const fromPreferment = parts !== null || typeof line.preferment === 'string' ? one.weight : fraction(0);
      found.set(key, {
        name: before?.name ?? one.name,
        flour: one.flour,
        weight: before === undefined ? one.weight : plus(before.weight, one.weight),
        inPreferment: before === undefined ? fromPreferment : plus(before.inPreferment, fromPreferment),
      });
    }
  }
  return { ok: true, lines: [...found.values()] };
}
