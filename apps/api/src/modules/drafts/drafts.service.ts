import { differences, overlapping } from '@bakehouse/domain';
import { Inject, Injectable } from '@nestjs/common';
import type { DraftConflict } from '@bakehouse/contracts';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { draftFault } from './draft-fault.js';
import { draftsOf, earlierDraft, holdDraft, makeDraft, saveDraft, type Content, type DraftRow, type DraftSort } from './drafts.query.js';
import type { IfMatch } from './if-match.js';

export interface Making {
  readonly id: string;
  readonly subject: string;
  readonly basedOn: string | null;
  readonly content: Content;
}
/** Saved (or found as it was to be saved), or what came between. */
export type SaveOutcome =
  { readonly as: 'saved'; readonly revision: number } | { readonly as: 'conflict'; readonly conflict: DraftConflict['conflict'] };

/** Keeps drafts of formulas and plans: whoever saves names the revision that they were shown. */
@Injectable()
export class DraftsService {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  list({ organisation }: SessionContext, sort: DraftSort, away: boolean): Promise<readonly DraftRow[]> {
    return this.tenancy.reading(organisation, (client) => draftsOf(client, organisation, sort, away));
  }

  /** @throws ProblemException where the id stands for a draft of another sort */
  async make({ organisation, person }: SessionContext, sort: DraftSort, draft: Making): Promise<void> {
    const made = await this.tenancy.inOrganisation(organisation, (client) =>
      makeDraft(client, organisation, { ...draft, content: kept(draft.content), sort, by: person, at: this.clock.now().toISOString() }),
    );
    if (!made) throw new ProblemException({ problem: 'id-reused', field: 'id' });
  }

  /**
   * Saves where the draft is at one of these revisions. A save whose reply was lost is not a conflict with itself: what is there already
   * as it was to be is saved (RFC 9110 §13.1.1 allows it). To save a draft that is put away takes it up again.
   * @throws ProblemException where there is no such draft, or its text cannot be kept
   */
  save(session: SessionContext, sort: DraftSort, id: string, ifMatch: IfMatch, content: Content): Promise<SaveOutcome> {
    return this.change(session, sort, id, ifMatch, { content: kept(content), away: false });
  }

  /** Puts a draft away: whoever still writes on it is told when they save. Nothing is deleted. */
  putAway(session: SessionContext, sort: DraftSort, id: string, ifMatch: IfMatch): Promise<SaveOutcome> {
    return this.change(session, sort, id, ifMatch, { away: true });
  }

  private change(
    { organisation, person }: SessionContext,
    sort: DraftSort,
    id: string,
    ifMatch: IfMatch,
    to: { content?: Content; away: boolean },
  ): Promise<SaveOutcome> {
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const now = await holdDraft(client, organisation, sort, id);
      if (!now) throw new ProblemException('unknown-draft');
      const content = to.content ?? now.content;
      if (now.away === to.away && differences(now.content, content).length === 0) return { as: 'saved', revision: now.revision };
      if (ifMatch.revisions.includes(now.revision)) {
        await saveDraft(client, organisation, id, { content, away: to.away, by: person, at: this.clock.now().toISOString() });
        return { as: 'saved', revision: now.revision + 1 };
      }
      const from = Math.max(0, ...ifMatch.revisions);
      const base = await earlierDraft(client, organisation, id, from);
      return { as: 'conflict', conflict: conflictOf(now, base?.content ?? null, content) };
    });
  }
}

function kept(content: Content): Content {
  const fault = draftFault(content);
  if (fault !== undefined) throw new ProblemException({ problem: 'malformed', field: 'content', acceptable: fault });
  return content;
}

function conflictOf(
  { revision, by, byName, at, away, content: theirs }: DraftRow,
  base: Content | null,
  mine: Content,
): DraftConflict['conflict'] {
  const [theyChanged, iChanged] = [differences(base ?? mine, theirs), differences(base ?? theirs, mine)];
  return {
    revision,
    by: { person: by, name: byName },
    at,
    away,
    base,
    mine,
    theirs,
    theyChanged: theyChanged.map((d) => ({ ...d, path: [...d.path] })),
    iChanged: iChanged.map((d) => ({ ...d, path: [...d.path] })),
    bothChanged: overlapping(iChanged, theyChanged),
  };
}
