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
});
export type FormulaContent = z.infer<typeof formulaContent>;
