import { countText } from '@bakehouse/kernel';
import type * as z from 'zod';

const inParserWords = ({ message }: z.core.$ZodIssue): boolean => /^(Too small|Too big|Invalid input|Invalid option)/.test(message);

/** Whether the field is only empty; the schema's own words say more than "Required". */
export function isMissing(issue: z.core.$ZodIssue, value: unknown): boolean {
  if (!inParserWords(issue)) return false;
  if (issue.code === 'invalid_type' || issue.code === 'invalid_value') return value === undefined || value === null;
  return issue.code === 'too_small' && value === '';
}

/** What is acceptable, in words for the author of a draft: the schema's own words where it has some, else those of the parser. */
export function whatWouldDo(issue: z.core.$ZodIssue): string {
  if (!inParserWords(issue)) return issue.message;
  switch (issue.code) {
    case 'too_small':
      if (issue.origin === 'string') return `${countText(Number(issue.minimum), 'character')} or more`;
      return issue.origin === 'array' ? `${issue.minimum} or more of them` : issue.message;
    case 'too_big':
      if (issue.origin === 'string') return `${countText(Number(issue.maximum), 'character')} at most`;
      return issue.origin === 'array' ? `${issue.maximum} of them at most` : issue.message;
    case 'invalid_value':
      return `one of ${issue.values.join(', ')}`;
    case 'invalid_type':
      return `a value of the type ${issue.expected}`;
    default:
      return issue.message;
  }
}
