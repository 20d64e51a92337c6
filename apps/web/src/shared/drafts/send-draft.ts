import type { Ask, Reply } from '@bakehouse/api-client';
import { draftConflict, type DraftConflict } from '@bakehouse/contracts';
import * as z from 'zod';

/** Where the drafts of one type are. */
export type DraftsPath = '/formulas/drafts' | '/plans/drafts';
export type Sent<V> =
  { readonly as: 'saved'; readonly view: V | null } | { readonly as: 'conflict'; readonly conflict: DraftConflict['conflict'] };

const nothing = z.null();

/**
 * Saves a draft over the revision that it was made from, or archives it. What somebody else saved meanwhile comes back with both texts: that
 * is an answer here, not a failure.
 */
export async function sendDraft<V>(
  ask: Ask,
  path: DraftsPath,
  answer: z.ZodType<V>,
  draft: { readonly id: string; readonly revision: number },
  text: object | undefined,
): Promise<Reply<Sent<V>>> {
  const params = { path: { draft: draft.id }, header: { 'If-Match': `"${draft.revision}"` } };
  const reply: Reply<V | null> = text
    ? await ask('put', `${path}/{draft}`, answer, { params, body: { ...text } })
    : await ask('delete', `${path}/{draft}`, nothing, { params });
  if (reply.as === 'ok') return { as: 'ok', value: { as: 'saved', view: reply.value } };
  const { data } = draftConflict.safeParse(reply.as === 'problem' ? reply.document : undefined);
  return data ? { as: 'ok', value: { as: 'conflict', conflict: data.conflict } } : reply;
}
