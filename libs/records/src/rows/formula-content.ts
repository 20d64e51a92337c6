import { canonicalInteger, figure, id, name, observed } from '@bakehouse/kernel';
import * as z from 'zod';

/** Which date a product gets. */
export const additionAfter = z.enum(['before-oven', 'after-oven']);
export const dateType = z.enum(['best-before', 'use-by']);
export const formulaType = z.enum(['dough', 'batter', 'pastry', 'preferment', 'starter', 'soaker', 'filling', 'topping', 'wash']);

/** One line: so many milligrams of a material, or of what another formula makes. */
export const formulaLine = z.strictObject({
  material: id,
  name,
  mg: canonicalInteger.positive(),
  flour: z.boolean(),
  /** The formula that makes this material here (a preferment, a filling), or null where it is bought. */
  madeBy: id.nullable(),
});

export const processStep = z.strictObject({
  key: z.string().min(1).max(40),
  type: z.enum(['mix', 'rest', 'divide', 'shape', 'prove', 'retard', 'wash', 'bake', 'cook', 'cool', 'freeze', 'fill', 'finish', 'pack']),
  name,
  minutes: z.int().nonnegative().nullable(),
  maxMinutes: z.int().nonnegative().nullable(),
  speed: z.enum(['slow', 'fast']).nullable(),
  target: observed.nullable(),
  place: z.string().max(60).nullable(),
});

/** A product that is made from a dough: its scaling weight, what it weighs baked, its life and how one oven bakes it. */
export const formulaProduct = z.strictObject({
  product: id,
  name,
  scalingMg: canonicalInteger.positive(),
  pieces: z.int().positive().nullable(),
  bakedMg: canonicalInteger.positive(),
  lossPpm: z.int().min(0).max(990_000),
  lifeDays: z.int().positive(),
  dateType,
  ovens: z
    .array(
      z.strictObject({
        oven: z.string().max(60),
        celsius: z.int(),
        finishCelsius: z.int().nullable(),
        minutes: z.int().positive(),
        steamSeconds: z.int().nonnegative(),
      }),
    )
    .max(10),
  /** Materials used on the product besides the formula: seeds, washes, glazes, tin oil, with milligrams a piece where they are weighed. */
  additions: z
    .array(
      z.strictObject({
        material: id,
        name,
        mgPerPiece: canonicalInteger.nonnegative().nullable(),
        after: additionAfter,
      }),
    )
    .max(20),
});

/** What may go in again is at most so old, and so often it is counted how often it went in before: what is older is not looked at. */
export const longestReworkDays = 60;

/**
 * What of the house's own (crumb, trim, old dough, stale bread) may be put back into what this formula makes. A lot of one of the `sources` is rework however its
 * line was marked, and so is every line of the type `rework`. Common practice, no source.
 */
export const reworkRule = z.strictObject({
  /** Materials that may be put back; none means that nothing may. */
  sources: z.array(z.strictObject({ material: id, name })).max(20),
  /**
   * The mass of all rework that goes into one make, as it is weighed in, in hundredths of a percent of the mass of the flour in that make: what is weighed in of
   * this formula's lines of flour. Flour inside what was made here, rework among it, is not counted. Null: no limit.
   */
  maxFlourBp: z.int().min(0).max(100_000).nullable(),
  /**
   * How old it may be when it goes in: from when it was counted out after baking, divided, or ended (else begun) where it is a make of its own; of a vessel's content
   * the oldest that is in it. Null: no limit.
   */
  maxAgeHours: z
    .int()
    .positive()
    .max(longestReworkDays * 24)
    .nullable(),
  /** How many times the same food may be put back, this time counted: the steps of rework on the way that it came, of the last 60 days. Null: no limit. */
  maxTimes: z.int().positive().max(20).nullable(),
});
export type ReworkRule = z.infer<typeof reworkRule>;

export const formulaContent = z.strictObject({
  lines: z.array(formulaLine).min(1).max(60),
  steps: z.array(processStep).max(40),
  products: z.array(formulaProduct).max(30),
  /** The material that this formula makes (an intermediate), so that other formulas can use it. */
  makes: id,
  doughCelsius: z.strictObject({ min: figure, max: figure }).nullable(),
  /** The friction factor expected of this mixer, size and time, as a Celsius difference, three-term sum. */
  frictionCelsius: figure.nullable(),
  minutesSlow: z.int().nonnegative().nullable(),
  minutesFast: z.int().nonnegative().nullable(),
  lifeHours: z.int().positive().nullable(),
  /** Null: this formula says nothing of rework, and nothing is said against any. */
  rework: reworkRule.nullable(),
});
/** As it was before a formula could say what may be put back into it. */
export const formulaContentBefore = formulaContent.omit({ rework: true });
export type FormulaContent = z.infer<typeof formulaContent>;
