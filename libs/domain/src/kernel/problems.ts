/**
 * The one table of what can go wrong: HTTP status, a short title, and a sentence that says what to do.
 * Codes keep their meaning for ever; the wire form is RFC 9457 problem+json.
 */
export const problems = {
  malformed: { status: 400, title: 'Not in the expected form', detail: 'Correct the named field and send it again.' },
  'unacceptable-value': { status: 422, title: 'A value cannot be accepted', detail: 'Give the named field a value in the range that is stated, then try again.' },
} as const satisfies Record<string, { status: number; title: string; detail: string }>;

export type ProblemCode = keyof typeof problems;

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
