import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import { isMissing, whatWouldDo } from './what-is-missing.js';

const wordsFor = (schema: z.ZodType, value: unknown): string | undefined => {
  const issue = schema.safeParse(value).error?.issues[0];
  return issue && whatWouldDo(issue);
};

describe('what is acceptable in a draft', () => {
  it.each([
    ['a short one', z.string().min(3), 'ab', '3 characters or more'],
    ['a long one', z.string().max(1), 'ab', '1 character at most'],
    ['no lines', z.array(z.string()).min(1), [], '1 or more of them'],
    ['too many', z.array(z.string()).max(2), ['a', 'b', 'c'], '2 of them at most'],
    ['a number where a text must be', z.string(), 1, 'a value of the type string'],
    ['a schema’s own words', z.string().min(1, 'the name on the bag'), '', 'the name on the bag'],
  ])('is put in words: %s', (_what, schema, value, words) => {
    expect(wordsFor(schema, value)).toBe(words);
  });

  it.each([
    ['an empty text', z.string().min(1), '', true],
    ['nothing', z.string(), null, true],
    ['an empty text where the schema says what it needs', z.string().min(1, 'the name on the bag'), '', false],
    ['a text that is too short', z.string().min(3), 'ab', false],
    ['a number for a text', z.string(), 1, false],
  ])('counts as missing or not: %s', (_what, schema, value, missing) => {
    const issue = schema.safeParse(value).error?.issues[0];
    expect(issue && isMissing(issue, value)).toBe(missing);
  });
});
