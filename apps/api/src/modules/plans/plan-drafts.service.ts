import type { newPlanDraft, PlanDraftView, ToSign } from '@bakehouse/contracts';
import { caution, derivedId, differences } from '@bakehouse/kernel';
import { blankPlan, kinds, planDraft, planDraftProblems } from '@bakehouse/records';
import { Injectable } from '@nestjs/common';
import * as z from 'zod';
import type { SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { againstOf, draftAndOthers, DraftsService, headOf, othersOf, problemsShown, type Content } from '../drafts/index.js';
import { newestVersions, specifications, stateOf } from '../formulas/index.js';
import { planVersions, type PlanRow } from './plans.query.js';

const signedKind = kinds.find((k) => k.name === 'plan-approved');
const called = z.looseObject({ content: z.looseObject({ name: z.string() }) });

/** What a plan's draft says that the plan is called, if it does. */
export const nameIn = (content: Content): string => called.safeParse(content).data?.content.name ?? '';

const newestOf = (rows: readonly PlanRow[], series: string): PlanRow | undefined =>
  rows.filter((r) => r.series === series).sort((a, b) => b.number - a.number)[0];

/** Drafts of HACCP plans: made, shown with what they lack, and turned into what is signed. */
@Injectable()
export class PlanDraftsService {
  constructor(
    private readonly drafts: DraftsService,
    private readonly tenancy: Tenancy,
  ) {}

  /** From the newest version of a plan, or from nothing as a series of its own. Twice under one id is one draft. */
  async make(session: SessionContext, { id, series, name, site }: z.infer<typeof newPlanDraft>): Promise<PlanDraftView> {
    if (series === undefined) {
      await this.drafts.make(session, 'plan', {
        id,
        subject: derivedId(id, 'plan'),
        basedOn: null,
        content: blankPlan(name ?? '', site ?? null),
      });
      return this.show(session, id);
    }
    const from = newestOf(await this.tenancy.reading(session.organisation, (client) => planVersions(client, session.organisation)), series);
    if (!from) throw new ProblemException({ problem: 'unknown-plan', field: 'series' });
    const content = { site: site === undefined ? from.site : site, content: { ...from.content, name: name ?? from.content.name } };
    await this.drafts.make(session, 'plan', { id, subject: series, basedOn: from.id, content });
    return this.show(session, id);
  }

  /** @throws ProblemException where there is no such draft */
  async show({ organisation }: SessionContext, id: string): Promise<PlanDraftView> {
    return this.tenancy.reading(organisation, async (client) => {
      const { draft, others } = await draftAndOthers(client, organisation, 'plan', id);
      if (!draft) throw new ProblemException('unknown-draft');
      const newest = newestOf(await planVersions(client, organisation), draft.subject);
      const state = stateOf({
        versions: await newestVersions(client, organisation),
        specifications: await specifications(client, organisation),
      });
      const problems = problemsShown(planDraftProblems(draft.content, state));
      return {
        ...headOf(draft, nameIn(draft.content)),
        content: { ...draft.content },
        problems,
        ready: problems.length === 0,
        nextNumber: (newest?.number ?? 0) + 1,
        against: againstOf(newest, ({ site, content }) => differences({ site, content }, draft.content)),
        others: othersOf(others),
        caution,
      };
    });
  }

  /**
   * Exactly what is signed and sent through the door. The door judges it once more; that its limits are safe is what the signature says.
   * @throws ProblemException where something stands against it, at its first field
   */
  async toSign(session: SessionContext, id: string): Promise<ToSign> {
    const { subject, content, problems, nextNumber, revision, against } = await this.show(session, id);
    const [first] = problems;
    if (first || !signedKind?.signed)
      throw new ProblemException({
        problem: 'draft-not-ready',
        ...(first && { field: first.field, ...(first.acceptable !== null && { acceptable: first.acceptable }) }),
      });
    const { site, content: whole } = planDraft.parse(content);
    return {
      kind: signedKind.name,
      version: signedKind.version,
      payload: { series: subject, number: nextNumber, site, content: whole },
      meaning: signedKind.signed,
      revision,
      against,
      caution,
    };
  }
}
