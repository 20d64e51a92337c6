import { malformed, refuse, type Outcome, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { isFields, type Fields } from './spellings.js';

export { isFields, type Fields };

/** What every answer carries beside its own figures. */
export const explained = z.object({
  inputs: z.record(z.string(), z.unknown()).meta({ description: 'the inputs as understood, in canonical units' }),
  explanation: z.string().meta({ description: 'how the answer follows, in a sentence a person can follow' }),
  source: z.string().meta({ description: 'the published rule or formula' }),
  validRange: z.string().nullable().meta({ description: 'where the figures hold; null where the rule has no range' }),
  cautions: z.array(z.string()),
});
export type Explained = z.infer<typeof explained>;

export const standardCaution =
  'A calculation, not an approval: limits must be validated by a competent person, and your local food-safety authority’s rules come first.';

export interface CalculationSpec<N extends string, I extends z.ZodType, O extends z.ZodObject> {
  readonly name: N;
  readonly title: string;
  readonly input: I;
  /** The answer's own fields; `explained` is added to it. */
  readonly output: O;
  readonly example: z.input<I>;
  /** Other ways to write the same request, put into the form of `input`. It changes names and shapes, never a figure. */
  readonly alsoReads?: (raw: Fields) => unknown;
  run(input: z.output<I>): Outcome<z.output<O> & Explained>;
}

/** A calculation with its types erased at the one place where they are known, so that a list of them has one type. */
export interface Calculation {
  readonly name: string;
  readonly title: string;
  readonly input: z.ZodType;
  readonly output: z.ZodObject;
  readonly example: unknown;
  calculate(raw: unknown): Outcome<Explained>;
}

/** Declares a calculation: parses the raw input, names the first offending field, then runs it. Pure, no I/O. */
export function defineCalculation<const N extends string, I extends z.ZodType, O extends z.ZodObject>(spec: CalculationSpec<N, I, O>) {
  return {
    name: spec.name,
    title: spec.title,
    input: spec.input,
    output: spec.output.extend(explained.shape).meta({ id: `Answer.${spec.name}` }),
    example: spec.example,
    run: (input: z.output<I>) => spec.run(input),
    calculate(raw: unknown): Outcome<z.output<O> & Explained> {
      const read = spec.alsoReads !== undefined && isFields(raw) ? spec.alsoReads(raw) : raw;
      const parsed = spec.input.safeParse(read, { error: plainWords });
      return parsed.success ? spec.run(parsed.data) : refusal(parsed.error, spec.input);
    },
  };
}

const words: Readonly<Record<string, string>> = {
  array: 'a list',
  object: 'an object',
  string: 'text',
  number: 'a finite number',
  int: 'a whole number',
  boolean: 'true or false',
};

const counted: Readonly<Record<string, string>> = { string: ' characters', array: ' items' };

/** What is acceptable, where a schema does not say it itself. */
function plainWords(issue: z.core.$ZodRawIssue): string | undefined {
  if (issue.code === 'invalid_type') return words[issue.expected];
  if (issue.code === 'too_big') return `at most ${issue.maximum}${counted[issue.origin] ?? ''}`;
  if (issue.code === 'too_small') return `at least ${issue.minimum}${counted[issue.origin] ?? ''}`;
  return issue.code === 'invalid_value' ? `one of ${issue.values.map(String).join(', ')}` : undefined;
}

function refusal(error: z.ZodError, input: z.ZodType): Refused {
  const refused = malformed(error);
  const [issue] = error.issues;
  const fields = input instanceof z.ZodObject ? Object.keys(input.shape).join(', ') : '';
  if (issue === undefined || (issue.path.length > 0 && issue.code !== 'unrecognized_keys')) return refused;
  const known = issue.path.length === 0 ? `an object with only the fields ${fields}` : issue.message;
  return issue.code === 'custom' ? refused : refuse(refused.problem, refused.field, known);
}
