import { differences, overlapping } from '@bakehouse/kernel';
import { Inject, Injectable } from '@nestjs/common';
import type { DraftConflict } from '@bakehouse/contracts';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { draftFault } from './draft-fault.js';
import { draftsOf, earlierDraft, holdDraft, makeDraft, saveDraft, type Content, type DraftRow, type DraftType } from './drafts.query.js';
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

  list({ organisation }: SessionContext, type: DraftType, archived: boolean): Promise<readonly DraftRow[]> {
    return this.tenancy.reading(organisation, (client) => draftsOf(client, organisation, type, archived));
  }

  /** @throws ProblemException where the id stands for a draft of another type */
  async make({ organisation, person }: SessionContext, type: DraftType, draft: Making): Promise<void> {
    const made = await this.tenancy.inOrganisation(organisation, (client) =>
      makeDraft(client, organisation, { ...draft, content: kept(draft.content), type, by: person, at: this.clock.now().toISOString() }),
    );
    if (!made) throw new ProblemException({ problem: 'id-reused', field: 'id' });
  }

  /**
   * Saves where the draft is at one of these revisions. A save whose reply was lost is not a conflict with itself: what is there already
   * as it was to be is saved (RFC 9110 §13.1.1 allows it). To save a draft that is archived takes it up again.
   * @throws ProblemException where there is no such draft, or its text cannot be kept
   */
  save(session: SessionContext, type: DraftType, id: string, ifMatch: IfMatch, content: Content): Promise<SaveOutcome> {
    return this.change(session, type, id, ifMatch, { content: kept(content), archived: false });
  }

  /** Archives a draft: whoever still writes on it is told when they save. Nothing is deleted. */
  archived(session: SessionContext, type: DraftType, id: string, ifMatch: IfMatch): Promise<SaveOutcome> {
    return this.change(session, type, id, ifMatch, { archived: true });
  }

  private change(
    { organisation, person }: SessionContext,
    type: DraftType,
    id: string,
    ifMatch: IfMatch,
    to: { content?: Content; archived: boolean },
  ): Promise<SaveOutcome> {
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const now = await holdDraft(client, organisation, type, id);
      if (!now) throw new ProblemException('unknown-draft');
      const content = to.content ?? now.content;
      if (now.archived === to.archived && differences(now.content, content).length === 0) return { as: 'saved', revision: now.revision };
      if (ifMatch.revisions.includes(now.revision)) {
        await saveDraft(client, organisation, id, { content, archived: to.archived, by: person, at: this.clock.now().toISOString() });
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
  { revision, by, byName, at, archived, content: theirs }: DraftRow,
  base: Content | null,
  mine: Content,
): DraftConflict['conflict'] {
  const [theyChanged, iChanged] = [differences(base ?? mine, theirs), differences(base ?? theirs, mine)];
  return {
    revision,
    by: { person: by, name: byName },
    at,
    archived,
    base,
    mine,
    theirs,
    theyChanged: theyChanged.map((d) => ({ ...d, path: [...d.path] })),
    iChanged: iChanged.map((d) => ({ ...d, path: [...d.path] })),
    bothChanged: overlapping(iChanged, theyChanged),
  };
}
