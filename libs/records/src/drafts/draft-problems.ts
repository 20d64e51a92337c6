import type { Problem, ProblemCode } from '@bakehouse/kernel';
import type * as z from 'zod';
import { formulaDraft, planDraft } from './draft-content.js';
import { whatWouldDo } from './what-is-missing.js';
import type { State } from '../base/state.js';
import { contentProblems } from '../formulas/content-problem.js';
import { planProblems } from '../plans/plan-problems.js';

/** What stands against approving a draft, at a field. Listed, never refused: a draft may be half made. */
export interface DraftProblem {
  readonly field: string;
  readonly problem: ProblemCode;
  readonly acceptable: string | null;
}

/** Nobody reads more than these at once. */
const maxListed = 200;

/**
 * Everything that stands against approving a formula's draft: first what is missing or malformed, and where nothing is, what makes no sense.
 * The same rules as the signed approval. Needs what `contentNeeds` names.
 */
export function formulaDraftProblems(formula: string, raw: unknown, state: State, at: string): DraftProblem[] {
  const read = formulaDraft.safeParse(raw);
  if (!read.success) return formProblems(read.error);
  return contentProblems(formula, read.data.type, read.data.content, state, at).map(atDraft).slice(0, maxListed);
}

/** The same of a plan's draft. That its limits are safe is for a competent person to validate. */
export function planDraftProblems(raw: unknown, state: State): DraftProblem[] {
  const read = planDraft.safeParse(raw);
  return read.success ? planProblems(read.data.content, state).map(atDraft).slice(0, maxListed) : formProblems(read.error);
}

function formProblems(error: z.ZodError): DraftProblem[] {
  return error.issues.slice(0, maxListed).flatMap((issue): DraftProblem[] => {
    const field = issue.path.map(String).join('.');
    if (issue.code !== 'unrecognized_keys') return [{ field, problem: 'malformed', acceptable: lower(whatWouldDo(issue)) }];
    return issue.keys.map((key) => ({ field: field === '' ? key : `${field}.${key}`, problem: 'malformed', acceptable: 'no such field' }));
  });
}

const atDraft = ({ problem, field = '', acceptable }: Problem): DraftProblem => ({
  field: field.replace(/^payload\./, ''),
  problem,
  acceptable: acceptable ?? null,
});
const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
