import type { DraftConflict, DraftList } from '@bakehouse/contracts';
import { problems, type Difference } from '@bakehouse/kernel';
import { type DraftProblem } from '@bakehouse/records';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { toDocument } from '../../platform/http/index.js';
import type { DraftRow } from './drafts.query.js';
import { tagOf } from './if-match.js';

/** The head of a draft as it goes out; `name` is what its text says it is called. */
export function headOf(row: DraftRow, name: unknown): DraftList[number] {
  const { id, subject, basedOn, revision, madeAt, at, archived } = row;
  return {
    id,
    subject,
    basedOn,
    revision,
    madeAt,
    at,
    archived,
    name: typeof name === 'string' ? name : '',
    madeBy: { person: row.madeBy, name: row.madeByName },
    by: { person: row.by, name: row.byName },
  };
}

export const othersOf = (rows: readonly DraftRow[]): { id: string; by: { person: string; name: string | null }; at: string }[] =>
  rows.map(({ id, by, byName, at }) => ({ id, by: { person: by, name: byName }, at }));

export const problemsShown = (list: readonly DraftProblem[]) =>
  list.map(({ field, problem, acceptable }) => ({ field, problem, title: problems[problem].title, acceptable }));

/** What differs from a version that is in force. */
export const againstOf = <V extends { readonly id: string; readonly number: number }>(
  newest: V | undefined,
  differs: (version: V) => readonly Difference[],
) =>
  newest === undefined
    ? null
    : { version: newest.id, number: newest.number, differences: differs(newest).map((d) => ({ ...d, path: [...d.path] })) };

/** A draft as it goes out, its revision as its entity tag. */
export function tagged<V extends { readonly revision: number }>(view: V, reply: FastifyReply): V {
  void reply.header('etag', tagOf(view.revision));
  return view;
}

/** Answers 412 with both texts: the problem of RFC 9457 with the conflict as an extension member. */
export function answerConflict(conflict: DraftConflict['conflict'], request: FastifyRequest, reply: FastifyReply): DraftConflict {
  const { field: _field, acceptable: _acceptable, ...document } = toDocument({ problem: 'draft-changed' }, request.id);
  void reply.status(document.status).type('application/problem+json; charset=utf-8');
  return { ...document, conflict };
}
