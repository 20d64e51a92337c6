import { draftConflict, formulaDraftView, type DraftConflict, type FormulaDraftView } from '@bakehouse/contracts';
import * as z from 'zod';
import { ask, type Reply } from '../../shared/api';

export type Sent =
  | { readonly as: 'saved'; readonly view: FormulaDraftView | null }
  | { readonly as: 'conflict'; readonly conflict: DraftConflict['conflict'] };

/**
 * Saves a draft over the revision that it was made from, or puts it away. What somebody else saved meanwhile comes back with both texts: that
 * is an answer here, not a failure.
 */
export async function sendDraft(
  id: string,
  method: 'PUT' | 'DELETE',
  revision: number,
  text: object | undefined,
  token: string | null | undefined,
): Promise<Reply<Sent>> {
  const answer = z.union([formulaDraftView, z.null()]);
  let conflict: DraftConflict['conflict'] | undefined;
  const reply = await ask(`/formulas/drafts/${id}`, answer, {
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
