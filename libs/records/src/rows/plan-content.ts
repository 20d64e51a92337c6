import { amountFigure, figure, id, name, unit } from '@bakehouse/kernel';
import * as z from 'zod';

/** At the table: must, should, note. In the plan: critical control point, operational prerequisite, process check. */
export const pointClass = z.enum(['ccp', 'oprp', 'process-check']);
export const measured = z.enum(['air', 'surface', 'between-packs', 'core', 'liquid', 'dough', 'elapsed', 'yes-no', 'mass', 'ph']);
export const pointStep = z.enum([
  'receive',
  'store',
  'mix',
  'rest',
  'prove',
  'retard',
  'bake',
  'cook',
  'cool',
  'freeze',
  'finish',
  'pack',
  'dispatch',
  'display',
  'clean',
  'instrument',
]);

/** A limit: a range in its own unit, or that the answer is yes. Both ends belong to the range. */
export const limit = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('range'), min: figure.nullable(), max: figure.nullable(), unit }),
  z.strictObject({
    type: z.literal('elapsed'),
    maxMinutes: z.int().positive(),
    fromCelsius: figure.nullable(),
    toCelsius: figure.nullable(),
  }),
  z.strictObject({ type: z.literal('yes') }),
]);
export type Limit = z.infer<typeof limit>;

export const pointFrequency = z.enum([
  'each-make',
  'each-load',
  'first-load-of-day',
  'each-delivery',
  'each-day',
  'twice-a-day',
  'each-batch',
]);
export const pointIfNotMonitored = z.enum(['record', 'ask-again', 'hold']);
export const pointIfOutside = z.enum(['note', 'correct', 'hold']);

export const pointContent = z.strictObject({
  key: z.string().regex(/^[a-z0-9-]{1,40}$/),
  name,
  step: pointStep,
  class: pointClass,
  hazard: z.string().max(300),
  /** Which makes or products it is for; empty means every one with that step. */
  formulas: z.array(id).max(60),
  products: z.array(id).max(60),
  measured,
  parameter: z.string().max(80),
  limit,
  /** For a temperature that must be held: seconds at or above the minimum. */
  holdSeconds: amountFigure.nullable(),
  frequency: pointFrequency,
  ifNotMonitored: pointIfNotMonitored,
  ifOutside: pointIfOutside,
  correctiveAction: z.string().max(500),
  basis: z.string().max(500),
});
export type PointContent = z.infer<typeof pointContent>;

/** Whether what is used past its life is only warned of, or on hold with what it went into. */
export const lifeRule = z.enum(['warn', 'hold']);
export type LifeRule = z.infer<typeof lifeRule>;
/**
 * What the plan says about food past its life. There is no choice for a use-by date, which always holds: after it food is deemed unsafe (Regulation (EU)
 * No 1169/2011, Article 24(1), with Article 14(2) to (5) of Regulation (EC) No 178/2002).
 */
export const pastLife = z.strictObject({ opened: lifeRule, madeHere: lifeRule });
export type PastLife = z.infer<typeof pastLife>;
/** Which life: what the specification gives once opened, or what the formula gives to what is made here. */
export type Life = keyof PastLife;

const withoutLife = {
  name,
  scope: z.string().max(1000),
  team: z.string().max(500),
  points: z.array(pointContent).min(1).max(200),
};
/** A plan as it was approved before it said anything about food past its life. */
export const planBefore = z.strictObject(withoutLife);
export const planContent = z.strictObject({ ...withoutLife, pastLife });
export type PlanContent = z.infer<typeof planContent>;
