import type { Problem, ProblemCode } from '@bakehouse/kernel';
import * as z from 'zod';
import { formulaDraft, planDraft } from './draft-content.js';
import { isMissing, whatWouldDo } from './what-is-missing.js';
import type { State } from '../base/state.js';
import { contentProblems } from '../formulas/content-problem.js';
import { loosenedInForce, loosenedProblems } from '../plans/loosened-in-state.js';
import { planProblems } from '../plans/plan-problems.js';
import type { LoosenedPoint } from '../rows/loosened.js';

/** A reason why a draft cannot be approved yet, at a field. It is listed, never refused: a draft may be incomplete. */
export interface DraftProblem {
  readonly field: string;
  readonly problem: ProblemCode;
  readonly acceptable: string | null;
}

/** Enough for a person to work through at once. */
const maxListed = 200;

/**
 * Every reason why a formula's draft cannot be approved: first what is missing or malformed; where nothing is, what breaks the rules of the
 * signed approval. Needs what `contentNeeds` names.
 */
export function formulaDraftProblems(formula: string, raw: unknown, state: State, at: string): DraftProblem[] {
  const read = formulaDraft.safeParse(raw);
  if (!read.success) return formProblems(read.error, raw);
  return contentProblems(formula, read.data.type, read.data.content, state, at).map(atDraft).slice(0, maxListed);
}

/** The same for a plan's draft, with what it loosens and nobody says why. A competent person validates that its limits are safe. */
export function planDraftProblems(raw: unknown, state: State, at: string): DraftProblem[] {
  const read = planDraft.safeParse(raw);
  if (!read.success) return formProblems(read.error, raw);
  const { site, content, loosened } = read.data;
  const missing = loosenedProblems(loosenedInForce(state, site, content, at), loosened);
  return [...planProblems(content, state), ...missing].map(atDraft).slice(0, maxListed);
}

/** What a plan's draft lets through that the plans in force do not; null while it cannot be read yet. */
export function loosenedByDraft(raw: unknown, state: State, at: string): LoosenedPoint[] | null {
  const read = z.object({ site: planDraft.shape.site, content: planDraft.shape.content }).safeParse(raw);
  return read.success ? loosenedInForce(state, read.data.site, read.data.content, at) : null;
}

function formProblems(error: z.ZodError, raw: unknown): DraftProblem[] {
  return error.issues.slice(0, maxListed).flatMap((issue): DraftProblem[] => {
    const field = issue.path.map(String).join('.');
    if (isMissing(issue, valueAt(raw, issue.path))) return [{ field, problem: 'required', acceptable: null }];
    if (issue.code !== 'unrecognized_keys') return [{ field, problem: 'malformed', acceptable: lower(whatWouldDo(issue)) }];
    return issue.keys.map((key) => ({ field: field === '' ? key : `${field}.${key}`, problem: 'malformed', acceptable: 'no such field' }));
  });
}

const valueAt = (raw: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>((at, step) => (typeof at === 'object' && at !== null ? Reflect.get(at, step) : undefined), raw);

const atDraft = ({ problem, field = '', acceptable }: Problem): DraftProblem => ({
  field: field.replace(/^payload\./, ''),
  problem,
  acceptable: acceptable ?? null,
});
const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
