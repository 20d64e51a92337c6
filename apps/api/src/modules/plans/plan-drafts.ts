import { newPlanDraft, planDraftView, type PlanDraftView } from '@bakehouse/contracts';
import { derivedId } from '@bakehouse/kernel';
import {
  blankPlan,
  loosenedByDraft,
  planDraft,
  planDraftProblems,
  starterPlan,
  validationOf,
  type PlanContent,
  planWarnings,
} from '@bakehouse/records';
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
export const planDrafts: DraftType<z.infer<typeof newPlanDraft>, Pick<PlanDraftView, 'loosened' | 'warnings'>> = {
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
    const content = {
      site: site === undefined ? from.site : site,
      content: { ...withValidations(from), name: name ?? from.content.name },
      loosened: [],
    };
    return { subject: series, basedOn: from.id, content };
  },

  async about(client, organisation, { subject, content }, now) {
    const plans = await planVersions(client, organisation);
    const newest = newestOf(plans, subject);
    const reference = { versions: await newestVersions(client, organisation), specifications: await specifications(client, organisation) };
    const state = approvalState(reference, plans);
    return {
      problems: planDraftProblems(content, state, now),
      // why it loosens a limit is no change of the plan
      newest: newest && { ...newest, text: { site: newest.site, content: withValidations(newest), loosened: content['loosened'] ?? [] } },
      more: { loosened: loosenedByDraft(content, state, now), warnings: warningsOf(content) },
    };
  },

  toSign: (subject, number, text) => {
    return { kind: 'plan-approved', payload: { series: subject, number, ...planDraft.parse(text) } };
  },
};

/** The content to go on from: what was validated when a limit was loosened stands at its point. */
const withValidations = (from: PlanRow): PlanContent => ({
  ...from.content,
  points: from.content.points.map((point) => {
    const known = validationOf(from, point);
    return { ...point, validated: known && { by: known.by, on: known.on } };
  }),
});

function warningsOf(raw: unknown): PlanDraftView['warnings'] {
  const read = z.object({ content: planDraft.shape.content }).safeParse(raw);
  const points = read.success ? read.data.content.points : [];
  return planWarnings(points);
}
