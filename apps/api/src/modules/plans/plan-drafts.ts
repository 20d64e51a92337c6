import { newPlanDraft, planDraftView } from '@bakehouse/contracts';
import { derivedId } from '@bakehouse/kernel';
import { blankPlan, planDraft, planDraftProblems, starterPlan } from '@bakehouse/records';
import { approvalState } from '@bakehouse/views';
import * as z from 'zod';
import { ProblemException } from '../../platform/http/index.js';
import type { DraftType } from '../drafts/index.js';
import { newestVersions, specifications } from '../formulas/index.js';
import { planVersions, type PlanRow } from './plans.query.js';

const called = z.looseObject({ content: z.looseObject({ name: z.string() }) });

const newestOf = (rows: readonly PlanRow[], series: string): PlanRow | undefined =>
  rows.filter((r) => r.series === series).sort((a, b) => b.number - a.number)[0];

/** Drafts of HACCP plans. */
export const planDrafts: DraftType<z.infer<typeof newPlanDraft>, object> = {
  type: 'plan',
  controller: 'PlanDraftsController',
  tag: 'plans',
  path: 'plans/drafts',
  permission: 'manage.plans',
  summaries: {
    make: 'A draft from the newest version of a plan, or from nothing',
    show: 'A draft with what it lacks and what it changes',
  },
  request: newPlanDraft,
  view: planDraftView,
  nameOf: (content) => called.safeParse(content).data?.content.name,

  async begin(client, organisation, { id, series, name, site, starter }) {
    if (series === undefined) {
      const content = starter === undefined ? blankPlan(name ?? '', site ?? null) : { site: site ?? null, content: starterPlan.content };
      return { subject: derivedId(id, 'plan'), basedOn: null, content };
    }
    const from = newestOf(await planVersions(client, organisation), series);
    if (!from) throw new ProblemException({ problem: 'unknown-plan', field: 'series' });
    const content = { site: site === undefined ? from.site : site, content: { ...from.content, name: name ?? from.content.name } };
    return { subject: series, basedOn: from.id, content };
  },

  async about(client, organisation, { subject, content }) {
    const newest = newestOf(await planVersions(client, organisation), subject);
    const state = approvalState({
      versions: await newestVersions(client, organisation),
      specifications: await specifications(client, organisation),
    });
    return {
      problems: planDraftProblems(content, state),
      newest: newest && { ...newest, text: { site: newest.site, content: newest.content } },
      more: {},
    };
  },

  toSign: (subject, number, text) => {
    const { site, content } = planDraft.parse(text);
    return { kind: 'plan-approved', payload: { series: subject, number, site, content } };
  },
};
