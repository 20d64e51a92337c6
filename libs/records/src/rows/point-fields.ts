import { figure, unit } from '@bakehouse/kernel';
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

/** Whether what is used past its life is only warned of, or on hold with what it went into. */
export const lifeRule = z.enum(['warn', 'hold']);
export type LifeRule = z.infer<typeof lifeRule>;
