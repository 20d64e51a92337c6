import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import { whatWouldDo } from './what-is-missing.js';

const said = (schema: z.ZodType, value: unknown): string | undefined => {
  const issue = schema.safeParse(value).error?.issues[0];
  return issue && whatWouldDo(issue);
};

describe('what would do in a draft', () => {
  it.each([
    ['an empty name', z.string().min(1), '', 'something, not nothing'],
    ['a short one', z.string().min(3), 'ab', '3 characters or more'],
    ['a long one', z.string().max(1), 'ab', '1 character at most'],
    ['no lines', z.array(z.string()).min(1), [], '1 or more of them'],
    ['too many', z.array(z.string()).max(2), ['a', 'b', 'c'], '2 of them at most'],
    ['nothing where something must be', z.string(), null, 'something that fits here: it is missing, or of another type'],
    ['a schema’s own words', z.string().min(1, 'the name on the bag'), '', 'the name on the bag'],
  ])('is said in words: %s', (_what, schema, value, words) => {
    expect(said(schema, value)).toBe(words);
  });
});
