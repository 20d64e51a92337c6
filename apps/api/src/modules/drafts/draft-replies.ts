import type { DraftConflict, DraftList, DraftView } from '@bakehouse/contracts';
import { caution, differences, overlapping, problems } from '@bakehouse/kernel';
import type { FastifyReply } from 'fastify';
import { toDocument } from '../../platform/http/index.js';
import type { About, ShownAs } from './draft-type.js';
import type { Content, DraftRow } from './drafts.query.js';
import { tagOf } from './if-match.js';

/** The head of a draft as it goes out. */
export function headOf({ nameOf }: Pick<ShownAs<object>, 'nameOf'>, row: DraftRow): DraftList[number] {
  const { id, subject, basedOn, revision, madeAt, at, archived } = row;
  const name = nameOf(row.content);
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

/** A draft as it goes out: what is said of every draft, and what is said of this type of draft alone. */
export function viewOf<More extends object>(
  type: Pick<ShownAs<object>, 'nameOf'>,
  draft: DraftRow,
  others: readonly DraftRow[],
  { problems: found, newest, more }: About<More>,
): DraftView & More {
  const { content } = draft;
  return {
    ...headOf(type, draft),
    content: { ...content },
    problems: found.map(({ field, problem, acceptable }) => ({ field, problem, title: problems[problem].title, acceptable })),
    ready: found.length === 0,
    nextNumber: (newest?.number ?? 0) + 1,
    against: newest ? { version: newest.id, number: newest.number, differences: differencesOf(newest.text, content) } : null,
    others: others.map(({ id, by, byName, at }) => ({ id, by: { person: by, name: byName }, at })),
    caution,
    ...more,
  };
}

/** What came between: both texts, and what each changed of what both began from. */
export function conflictOf(
  { revision, by, byName, at, archived, content: theirs }: DraftRow,
  base: Content | null,
  mine: Content,
): DraftConflict['conflict'] {
  const [theyChanged, iChanged] = [differencesOf(base ?? mine, theirs), differencesOf(base ?? theirs, mine)];
  const bothChanged = overlapping(iChanged, theyChanged);
  return { revision, by: { person: by, name: byName }, at, archived, base, mine, theirs, theyChanged, iChanged, bothChanged };
}

const differencesOf = (before: unknown, after: unknown) => differences(before, after).map((d) => ({ ...d, path: [...d.path] }));

/** A draft as it goes out, its revision as its entity tag. */
export function tagged<V extends { readonly revision: number }>(view: V, reply: FastifyReply): V {
  void reply.header('etag', tagOf(view.revision));
  return view;
}

/** Answers 412 with both texts: the problem of RFC 9457 with the conflict as an extension member. */
export function answerConflict(conflict: DraftConflict['conflict'], reply: FastifyReply): DraftConflict {
  const { field: _field, acceptable: _acceptable, ...document } = toDocument({ problem: 'draft-changed' }, reply.request.id);
  void reply.status(document.status).type('application/problem+json; charset=utf-8');
  return { ...document, conflict };
}
