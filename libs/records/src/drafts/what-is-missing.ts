import type * as z from 'zod';

const many = (n: number | bigint, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** What would do, in words for whoever writes a draft; a schema's own words where it has some, else those of the parser. */
export function whatWouldDo(issue: z.core.$ZodIssue): string {
  if (!/^(Too small|Too big|Invalid input)/.test(issue.message)) return issue.message;
  switch (issue.code) {
    case 'too_small':
      if (issue.origin === 'string') return issue.minimum === 1 ? 'something, not nothing' : `${issue.minimum} characters or more`;
      return issue.origin === 'array' ? `${issue.minimum} or more of them` : issue.message;
    case 'too_big':
      if (issue.origin === 'string') return `${many(issue.maximum, 'character', 'characters')} at most`;
      return issue.origin === 'array' ? `${issue.maximum} of them at most` : issue.message;
    case 'invalid_type':
      return 'something that fits here: it is missing, or of another type';
    default:
      return issue.message;
  }
}
