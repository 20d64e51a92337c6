import { amountFigure, calendarDay, id, name } from '@bakehouse/kernel';
import * as z from 'zod';
import { lifeRule, limit, measured, pointClass, pointFrequency, pointIfNotMonitored, pointIfOutside, pointStep } from './point-fields.js';

/** Who said on their own evidence that a limit is safe, and when; what it rests on is the basis. */
export const validated = z.strictObject({ by: z.string().trim().min(1).max(200), on: calendarDay });

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
  /** Null where nobody has recorded a validation. */
  validated: validated.nullable().default(null),
});
export type PointContent = z.infer<typeof pointContent>;

/**
 * What the plan says about food past its life. There is no choice for a use-by date, which always holds: after it food is deemed unsafe (Regulation (EU)
 * No 1169/2011, Article 24(1), with Article 14(2) to (5) of Regulation (EC) No 178/2002).
 */
export const pastLife = z.strictObject({ opened: lifeRule, madeHere: lifeRule });
export type PastLife = z.infer<typeof pastLife>;
/** Which life: what the specification gives once opened, or what the formula gives to what is made here. */
export type Life = keyof PastLife;

const about = { name, scope: z.string().max(1000), team: z.string().max(500) };
const points = <P extends z.ZodType>(of: P) => z.array(of).min(1).max(200);
/** Points as they were approved before one could say who validated its limit. */
const pointsBefore = points(pointContent.omit({ validated: true }));
/** A plan as it was approved before it said anything about food past its life. */
export const planBefore = z.strictObject({ ...about, points: pointsBefore });
/** A plan as it was approved before a point could say who validated its limit. */
export const planBeforeValidation = z.strictObject({ ...about, points: pointsBefore, pastLife });
export const planContent = z.strictObject({ ...about, points: points(pointContent), pastLife });
export type PlanContent = z.infer<typeof planContent>;
