import { planDraftView, type PlanDraftView } from '@bakehouse/contracts';
import {
  blankPlan,
  lifeRule,
  pointClass,
  pointFrequency,
  pointMeasured,
  pointIfNotMonitored,
  pointIfOutside,
  pointStep,
} from '@bakehouse/records';
import * as z from 'zod';
import type { DraftType, Writing } from '../../shared/drafts/use-draft';

const words = z.string().catch('');
const some = z.string().nullable().catch(null);
const limit = z
  .looseObject({
    type: z.enum(['range', 'elapsed', 'yes']),
    min: some,
    max: some,
    unit: z.string().catch('degC'),
    maxMinutes: z.number().nullable().catch(null),
    fromCelsius: some,
    toCelsius: some,
  })
  .catch({ type: 'range', min: null, max: null, unit: 'degC', maxMinutes: null, fromCelsius: null, toCelsius: null });
const point = z.looseObject({
  key: words,
  name: words,
  step: pointStep.catch('bake'),
  class: pointClass.catch('process-check'),
  hazard: words,
  formulas: z.array(z.string()).catch([]),
  products: z.array(z.string()).catch([]),
  measured: pointMeasured.catch('core'),
  parameter: words,
  limit,
  holdSeconds: some,
  frequency: pointFrequency.catch('each-load'),
  ifNotMonitored: pointIfNotMonitored.catch('record'),
  ifOutside: pointIfOutside.catch('hold'),
  correctiveAction: words,
  basis: words,
  validated: z.looseObject({ by: words, on: words }).nullable().catch(null),
});
const loosening = z.looseObject({ point: words, reason: words, validatedBy: words, evidence: words, validatedOn: words });
const rule = lifeRule.nullable().catch(null);
const text = z.looseObject({
  site: some,
  content: z.looseObject({
    name: words,
    scope: words,
    team: words,
    // A draft from before has neither: somebody has to choose.
    pastLife: z.looseObject({ opened: rule, madeHere: rule }).catch({ opened: null, madeHere: null }),
    points: z.array(point).catch([]),
  }),
  loosened: z.array(loosening).catch([]),
});

/** A plan as it is being written: anything may be missing still, and what the page does not know it keeps. */
export type PlanText = z.infer<typeof text>;
export type PointText = z.infer<typeof point>;
export type LimitText = z.infer<typeof limit>;
/** Why a control point may let through more, as far as it is said. */
export type LooseningText = z.infer<typeof loosening>;
export const blankLoosening: LooseningText = { point: '', reason: '', validatedBy: '', evidence: '', validatedOn: '' };
export type PlanWriting = Writing<PlanDraftView, PlanText>;

/** Reads whatever a draft holds, each limit with only the fields that its type has. */
export function readPlan(raw: unknown): PlanText {
  const read = text.safeParse(raw);
  const plan = read.success ? read.data : text.parse(blankPlan('', null));
  return { ...plan, content: { ...plan.content, points: plan.content.points.map((p) => ({ ...p, limit: limitOf(p.limit) })) } };
}

/** A limit with the fields of its type, as the plan takes them. */
export function limitOf({ type, min, max, unit, maxMinutes, fromCelsius, toCelsius }: LimitText): LimitText {
  const fields = {
    range: { type, min, max, unit },
    elapsed: { type, maxMinutes, fromCelsius, toCelsius },
    yes: { type },
  } as const;
  return fields[type] as LimitText; // the other types' fields are left out: the plan refuses what it does not know
}

export const planDrafts: DraftType<PlanDraftView, PlanText> = { path: '/plans/drafts', answer: planDraftView, read: readPlan };

/** A control point with a key of its own among the others. */
export function newPoint(others: readonly PointText[], from?: PointText): PointText {
  const taken = new Set(others.map((p) => p.key));
  let n = others.length + 1;
  while (taken.has(`point-${n}`)) n += 1;
  const blank = point.parse({});
  return { ...(from ?? { ...blank, limit: limitOf(blank.limit) }), key: `point-${n}`, ...(from ? { name: `${from.name}, copied` } : {}) };
}
