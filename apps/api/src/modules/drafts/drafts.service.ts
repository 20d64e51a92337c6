import type { DraftConflict, DraftView, ToSign } from '@bakehouse/contracts';
import { caution, differences } from '@bakehouse/kernel';
import { kindNamed } from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy, type Transaction } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { draftFault } from './draft-fault.js';
import { conflictOf, viewOf } from './draft-replies.js';
import type { DraftType, ShownAs } from './draft-type.js';
import { draftAndOthers, draftsOf, earlierDraft, holdDraft, makeDraft, saveDraft, type Content, type DraftRow } from './drafts.query.js';
import type { IfMatch } from './if-match.js';

type Conflict = { readonly as: 'conflict'; readonly conflict: DraftConflict['conflict'] };
/** Saved (or already saved with the same content), with the draft as stored; or the conflict. */
export type Saved<View> = { readonly as: 'saved'; readonly view: View } | Conflict;

/**
 * Keeps drafts: each save names the revision that it was made from. What a reply shows is read in the transaction that saved it, so that
 * nobody is shown somebody else's later text as their own.
 */
@Injectable()
export class DraftsService {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  list({ organisation }: SessionContext, { type }: Pick<ShownAs<object>, 'type'>, archived: boolean): Promise<readonly DraftRow[]> {
    return this.tenancy.reading(organisation, (client) => draftsOf(client, organisation, type, archived));
  }

  /**
   * From the newest version of what is named, or from nothing. Twice under one id is one draft.
   * @throws ProblemException where the id stands for a draft of another type
   */
  make<A extends { readonly id: string }, M extends object>(
    { organisation, person }: SessionContext,
    type: DraftType<A, M>,
    request: A,
  ): Promise<DraftView & M> {
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const { content, ...beginning } = await type.begin(client, organisation, request);
      const draft = { ...beginning, id: request.id, content: kept(content), type: type.type, by: person, at: this.now() };
      if (!(await makeDraft(client, organisation, draft))) throw new ProblemException({ problem: 'id-reused', field: 'id' });
      return this.view(client, organisation, type, request.id);
    });
  }

  /** @throws ProblemException where there is no such draft */
  show<M extends object>({ organisation }: SessionContext, type: ShownAs<M>, id: string): Promise<DraftView & M> {
    return this.tenancy.reading(organisation, (client) => this.view(client, organisation, type, id));
  }

  /**
   * Saves where the draft is at one of these revisions. A save whose reply was lost is not a conflict with itself: a text that is
   * there already counts as saved (RFC 9110 §13.1.1 allows it). To save a draft that is archived takes it up again.
   * @throws ProblemException where there is no such draft, or its text cannot be kept
   */
  save<M extends object>(
    session: SessionContext,
    type: ShownAs<M>,
    id: string,
    ifMatch: IfMatch,
    content: Content,
  ): Promise<Saved<DraftView & M>> {
    const { organisation } = session;
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const conflict = await this.change(client, session, type, id, ifMatch, { content: kept(content), archived: false });
      return conflict ?? { as: 'saved', view: await this.view(client, organisation, type, id) };
    });
  }

  /** Archives a draft: a person who is still editing it learns so when they save. Nothing is deleted. */
  archived(session: SessionContext, type: Pick<ShownAs<object>, 'type'>, id: string, ifMatch: IfMatch): Promise<Conflict | undefined> {
    return this.tenancy.inOrganisation(session.organisation, (client) =>
      this.change(client, session, type, id, ifMatch, { archived: true }),
    );
  }

  /**
   * Exactly what is signed and sent through the door. The door judges it once more; that a plan's limits are safe is what the signature says.
   * @throws ProblemException where something stands against it, at its first field
   */
  async toSign<M extends object>(session: SessionContext, type: ShownAs<M>, id: string): Promise<ToSign> {
    const { subject, content, problems, nextNumber, revision, against } = await this.show(session, type, id);
    const [first] = problems;
    if (first)
      throw new ProblemException({
        problem: 'draft-not-ready',
        field: first.field,
        ...(first.acceptable !== null && { acceptable: first.acceptable }),
      });
    const { kind, payload } = type.toSign(subject, nextNumber, content);
    const { version, signed: meaning } = kindNamed(kind);
    if (meaning === null) throw new Error(`a draft cannot become ${kind}: that is not signed`);
    return { kind, version, payload: { ...payload }, meaning, revision, against, caution };
  }

  /** The draft as this transaction sees it. */
  private async view<M extends object>(client: Transaction, organisation: string, type: ShownAs<M>, id: string): Promise<DraftView & M> {
    const { draft, others } = await draftAndOthers(client, organisation, type.type, id);
    if (!draft) throw new ProblemException('unknown-draft');
    return viewOf(type, draft, others, await type.about(client, organisation, draft, this.now()));
  }

  /** Changes a draft, or says what came between. It is held until the transaction ends. */
  private async change(
    client: Transaction,
    { organisation, person }: SessionContext,
    { type }: Pick<ShownAs<object>, 'type'>,
    id: string,
    ifMatch: IfMatch,
    to: { content?: Content; archived: boolean },
  ): Promise<Conflict | undefined> {
    const now = await holdDraft(client, organisation, type, id);
    if (!now) throw new ProblemException('unknown-draft');
    const content = to.content ?? now.content;
    if (now.archived === to.archived && differences(now.content, content).length === 0) return undefined;
    if (ifMatch.revisions.includes(now.revision)) {
      await saveDraft(client, organisation, id, { content, archived: to.archived, by: person, at: this.now() });
      return undefined;
    }
    const base = await earlierDraft(client, organisation, id, Math.max(0, ...ifMatch.revisions));
    return { as: 'conflict', conflict: conflictOf(now, base?.content ?? null, content) };
  }

  private now(): string {
    return this.clock.now().toISOString();
  }
}

function kept(content: Content): Content {
  const fault = draftFault(content);
  if (fault !== undefined) throw new ProblemException({ problem: 'malformed', field: 'content', acceptable: fault });
  return content;
}
