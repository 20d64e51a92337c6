import { ProblemException } from '../../platform/http/index.js';

/** Revisions that a client may save over, by strong comparison (RFC 9110 §13.1.1). A bare number is taken for its tag. */
export interface IfMatch {
  readonly revisions: readonly number[];
}

/** `"3"` → the entity tag of revision 3. */
export const tagOf = (revision: number): string => `"${revision}"`;

/**
 * Reads If-Match. `*` names no revision, so it would write over what nobody has seen: it is asked for again, as where the header is missing (RFC 6585 §3).
 * @throws ProblemException
 */
export function readIfMatch(header: string | undefined): IfMatch {
  const given = header?.trim() ?? '';
  if (given === '' || given === '*')
    throw new ProblemException({ problem: 'revision-needed', field: 'If-Match', acceptable: 'the revision in quotes, such as "3"' });
  const revisions = given
    .split(',')
    .map((tag) => /^(?:"(\d{1,9})"|(\d{1,9}))$/.exec(tag.trim()))
    .flatMap((m) => (m ? [Number(m[1] ?? m[2])] : []));
  return { revisions };
}
