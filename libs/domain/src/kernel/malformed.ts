import type * as z from 'zod';
import { refuse, type Refused } from './problems.js';

/** The refusal that a failed parse gives: the first offending field, an unknown one by its name, and what would have been accepted. */
export function malformed(error: z.ZodError, prefix: readonly string[] = []): Refused {
  const issue = error.issues[0];
  const unknown = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const path = [...prefix, ...(issue?.path.map(String) ?? []), ...unknown];
  return refuse(
    'malformed',
    path.join('.').slice(0, 200),
    unknown.length > 0 ? 'no such field' : issue ? acceptableOf(issue) : 'see the API description',
  );
}

const many = (n: number | bigint, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** What would have been accepted, in words for whoever typed it; where there are none, what the parser says. */
export function acceptableOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'too_small':
      if (issue.origin === 'string')
        return issue.minimum === 1 ? 'something, not nothing' : `${many(issue.minimum, 'character', 'characters')} or more`;
      return issue.origin === 'array'
        ? `${issue.minimum} or more of them`
        : `${issue.inclusive === false ? 'more than ' : ''}${issue.minimum}${issue.inclusive === false ? '' : ' or more'}`;
    case 'too_big':
      if (issue.origin === 'string') return `${many(issue.maximum, 'character', 'characters')} at most`;
      return issue.origin === 'array'
        ? `${issue.maximum} of them at most`
        : `${issue.inclusive === false ? 'less than ' : ''}${issue.maximum}${issue.inclusive === false ? '' : ' at most'}`;
    case 'invalid_type':
      return issue.input === null || issue.input === undefined ? 'something here: it is missing' : issue.message;
    default:
      return issue.message;
  }
}
