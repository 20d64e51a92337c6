import { problems, type Problem, type ProblemCode } from '@bakehouse/kernel';
import * as z from 'zod';

/** RFC 9457, with the field and what would have been accepted as extension members. */
export const problemDocument = z
  .object({
    type: z.url().meta({ description: 'The code of the problem, for programs; it never changes' }),
    title: z.string(),
    status: z.int(),
    detail: z.string().meta({ description: 'What to do' }),
    instance: z.string().meta({ description: 'The number of this request, as in the X-Request-Id header' }),
    field: z.string().optional().meta({ description: 'Dotted path of the field it concerns' }),
    acceptable: z.string().optional(),
  })
  .meta({ id: 'Problem' });

export type ProblemDocument = z.infer<typeof problemDocument>;

/** The type of a problem on the wire. */
export const problemType = (code: ProblemCode): string => `https://bakehouse-ledger.example/problems/${code}`;

/** A refusal as it goes out. */
export function toDocument({ problem, field, acceptable }: Problem, request: string): ProblemDocument {
  const { status, title, detail } = problems[problem];
  const sentence = acceptable === undefined ? detail : `${detail} Acceptable: ${acceptable}.`;
  return {
    type: problemType(problem),
    title,
    status,
    detail: sentence,
    instance: `urn:uuid:${request}`,
    ...(field !== undefined && { field }),
    ...(acceptable !== undefined && { acceptable }),
  };
}

/** Thrown by a controller or guard to answer with a problem; `headers` go out with it. */
export class ProblemException extends Error {
  readonly problem: Problem;

  constructor(
    problem: ProblemCode | Problem,
    readonly headers: Readonly<Record<string, string>> = {},
  ) {
    const whole = typeof problem === 'string' ? { problem } : problem;
    super(whole.problem);
    this.name = 'ProblemException';
    this.problem = whole;
  }
}
