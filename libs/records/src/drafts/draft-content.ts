import { id, name } from '@bakehouse/kernel';
import * as z from 'zod';
import { formulaContent, formulaType, reworkRule, type FormulaContent } from '../rows/formula-content.js';
import { looseningBasis } from '../rows/loosened.js';
import { planContent } from '../rows/plan-content.js';

/** What a draft of a formula has become when it is ready: the payload of `formula-approved` without the formula and its number. */
export const formulaDraft = z.strictObject({
  name,
  type: formulaType,
  // A draft from before a formula could say anything of rework says nothing of it.
  content: formulaContent.extend({ rework: reworkRule.nullable().default(null) }),
});
/** The same of a plan: the payload of `plan-approved` without the series and its number. */
export const planDraft = z.strictObject({
  site: id.nullable(),
  content: planContent,
  loosened: z.array(looseningBasis).max(200).default([]),
});
export type FormulaDraft = z.infer<typeof formulaDraft>;
export type PlanDraft = z.infer<typeof planDraft>;

/** A draft of a formula from nothing: everything still to be said is null or empty. */
export const blankFormula = (called: string, type: FormulaDraft['type']) => ({
  name: called,
  type,
  content: {
    lines: [],
    steps: [],
    products: [],
    makes: null,
    doughCelsius: null,
    frictionCelsius: null,
    minutesSlow: null,
    minutesFast: null,
    lifeHours: null,
    rework: null,
  },
});

/** A draft of a plan from nothing. What is used past its life is for somebody to decide: nothing is chosen for them. */
export const blankPlan = (called: string, site: string | null) => ({
  site,
  content: { name: called, scope: '', team: '', pastLife: { opened: null, madeHere: null }, points: [] },
});

type Line = FormulaContent['lines'][number];
/** A line of a draft, as far as it can be read. */
export interface DraftLine extends Line {
  readonly known: boolean;
}

const withLines = z.looseObject({ content: z.looseObject({ lines: z.array(z.unknown()) }) });
const lineSoFar = z.object({
  material: id.nullable().catch(null),
  name: z.string().catch(''),
  mg: z.int().positive().nullable().catch(null),
  flour: z.boolean().catch(false),
  madeBy: id.nullable().catch(null),
});

/** The lines of a draft that may be half made: a weight that is no weight yet counts as nothing, a material nobody named as not known. */
export function draftLines(raw: unknown): DraftLine[] {
  const read = withLines.safeParse(raw);
  return read.success
    ? read.data.content.lines.map((line) => {
        const { data } = lineSoFar.safeParse(line);
        return {
          material: data?.material ?? '',
          name: data?.name ?? '',
          mg: data?.mg ?? 0,
          flour: data?.flour ?? false,
          madeBy: data?.madeBy ?? null,
          known: data?.material !== undefined && data.material !== null,
        };
      })
    : [];
}
