import type { ProblemCode } from './problems.js';

/** A refusal as a value: the code, the field it concerns (dotted path), and what would have been accepted. */
export interface Problem {
  readonly problem: ProblemCode;
  readonly field?: string;
  readonly acceptable?: string;
}

export type Refused = { readonly ok: false } & Problem;
export type Outcome<T> = { readonly ok: true; readonly value: T } | Refused;

/** Builds a refusal; `field` is a dotted path from the body's root, `acceptable` a phrase that completes "Acceptable: …". */
export function refuse(problem: ProblemCode, field?: string, acceptable?: string): Refused {
  return { ok: false, problem, ...(field === undefined ? {} : { field }), ...(acceptable === undefined ? {} : { acceptable }) };
}
