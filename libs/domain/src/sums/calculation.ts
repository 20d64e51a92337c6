import * as z from 'zod';
import { malformed } from '../kernel/malformed.js';
import type { Outcome } from '../kernel/problems.js';

/** What every answer carries beside its own figures. */
export const explained = z.object({
  inputs: z.record(z.string(), z.unknown()).meta({ description: 'the inputs as understood, in canonical units' }),
  explanation: z.string().meta({ description: 'how the answer follows, in a sentence a person can follow' }),
  source: z.string().meta({ description: 'the published rule or formula' }),
  validRange: z.string().nullable().meta({ description: 'where the figures hold; null where the rule has no range' }),
  cautions: z.array(z.string()),
});
export type Explained = z.infer<typeof explained>;

export const standardCaution = 'A calculation, not an approval: limits must be validated by a competent person, and your local food-safety authority’s rules come first.';

export interface CalculationSpec<N extends string, I extends z.ZodType, O extends z.ZodObject> {
  readonly name: N;
  readonly title: string;
  readonly input: I;
  /** The answer's own fields; `explained` is added to it. */
  readonly output: O;
  readonly example: z.input<I>;
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
      const parsed = spec.input.safeParse(raw);
      return parsed.success ? spec.run(parsed.data) : malformed(parsed.error);
    },
  };
}
