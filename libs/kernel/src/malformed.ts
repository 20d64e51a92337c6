import type * as z from 'zod';
import { refuse, type Refused } from './refusal.js';

/** The refusal that a failed parse gives: the first offending field, an unknown one by its name, and what would have been accepted. */
export function malformed(error: z.ZodError, prefix: readonly string[] = []): Refused {
  const issue = error.issues[0];
  const unknown = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const path = [...prefix, ...(issue?.path.map(String) ?? []), ...unknown];
  return refuse(
    'malformed',
    path.join('.').slice(0, 200),
    unknown.length > 0 ? 'no such field' : (issue?.message ?? 'see the API description'),
  );
}
