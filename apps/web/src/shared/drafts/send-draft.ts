import { draftConflict, type DraftConflict } from '@bakehouse/contracts';
import * as z from 'zod';
import { ask, type Reply } from '../api';

export type Sent<V> =
  { readonly as: 'saved'; readonly view: V | null } | { readonly as: 'conflict'; readonly conflict: DraftConflict['conflict'] };

/**
 * Saves a draft over the revision that it was made from, or archives it. What somebody else saved meanwhile comes back with both texts: that
 * is an answer here, not a failure.
 */
export async function sendDraft<V>(
  path: string,
  answer: z.ZodType<V>,
  method: 'PUT' | 'DELETE',
  revision: number,
  text: object | undefined,
  token: string | null | undefined,
): Promise<Reply<Sent<V>>> {
  let conflict: DraftConflict['conflict'] | undefined;
  const reply = await ask(path, z.union([answer, z.null()]), {
    method,
    body: text,
    token,
    ifMatch: `"${revision}"`,
    onProblem: (problem) => {
      conflict = draftConflict.safeParse(problem).data?.conflict;
    },
  });
  if (conflict) return { as: 'ok', value: { as: 'conflict', conflict } };
  return reply.as === 'ok' ? { as: 'ok', value: { as: 'saved', view: reply.value } } : reply;
}
