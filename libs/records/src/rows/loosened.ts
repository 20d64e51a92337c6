import { amountFigure, calendarDay, id, name } from '@bakehouse/kernel';
import * as z from 'zod';
import { lifeRule, limit, measured, pointClass, pointFrequency, pointIfNotMonitored, pointIfOutside, pointStep } from './point-fields.js';

const taken = z.strictObject({ step: pointStep, measured, parameter: z.string().max(80) });
const fromTo = <W extends string, S extends z.ZodType>(what: W, of: S) => z.strictObject({ what: z.literal(what), before: of, after: of });

/** One way in which a control point lets through what it did not before. */
export const loosening = z.discriminatedUnion('what', [
  fromTo('limit', limit),
  z.strictObject({ what: z.literal('held'), before: amountFigure, after: amountFigure.nullable() }),
  fromTo('class', pointClass),
  fromTo('frequency', pointFrequency),
  fromTo('ifNotMonitored', pointIfNotMonitored),
  fromTo('ifOutside', pointIfOutside),
  fromTo('measured', taken),
  z.strictObject({ what: z.literal('gone'), before: limit }),
  /** What it is for no longer; with both empty it was for everything, and is now for some. */
  z.strictObject({ what: z.literal('fewer'), formulas: z.array(id), products: z.array(id) }),
  fromTo('life', lifeRule),
]);
export type Loosening = z.infer<typeof loosening>;

/** A control point of the plan in force, or its rule for food past its life, with all that is loosened in it. */
export const loosenedPoint = z.strictObject({ point: z.string().min(1).max(60), name, changes: z.array(loosening).min(1) });
export type LoosenedPoint = z.infer<typeof loosenedPoint>;

const words = (max: number) => z.string().trim().min(1).max(max);
/** Why a control point may be loosened, and what that rests on: who validated it, on what, and when. */
export const looseningBasis = z.strictObject({
  point: z.string().min(1).max(60),
  reason: words(500),
  validatedBy: words(200),
  evidence: words(500),
  validatedOn: calendarDay,
});
export type LooseningBasis = z.infer<typeof looseningBasis>;

/** What was loosened, as it was approved. */
export const loosenedAsApproved = loosenedPoint.extend(looseningBasis.omit({ point: true }).shape);
export type LoosenedAsApproved = z.infer<typeof loosenedAsApproved>;
