import type { PlanOverview, PlanView } from '@bakehouse/contracts';
import { caution } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { Approval } from '../formulas/versions.js';

/** An approved version of a plan. */
export type PlanRow = Row<'planVersion'> & Approval;

type Site = Pick<PlanOverview['sites'][number], 'site' | 'name'>;

/** Which version is in force at a site: the latest for it or for all. The rows are in that order. Pure. */
export const inForceAt = (rows: readonly PlanRow[], site: string): PlanRow | undefined =>
  rows.find((row) => row.site === null || row.site === site);

export function planOverviewOf(rows: readonly PlanRow[], sites: readonly Site[]): PlanOverview {
  return {
    sites: sites.map(({ site, name }) => {
      const plan = inForceAt(rows, site);
      return { site, name, plan: plan ? { ...headOf(plan), content: plan.content } : null };
    }),
    history: rows.map(headOf),
    caution,
  };
}

export function planViewOf(rows: readonly PlanRow[], row: PlanRow, sites: readonly Site[]): PlanView {
  return {
    ...headOf(row),
    content: row.content,
    inForceAt: sites.filter(({ site }) => inForceAt(rows, site)?.id === row.id).map(({ site }) => site),
    caution,
  };
}

function headOf({ id, series, number, site, since, signed, note, content }: PlanRow): PlanOverview['history'][number] {
  return { id, series, number, site, since, signed, note, name: content.name, points: content.points.length };
}
