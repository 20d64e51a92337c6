import type { PlanOverview, PlanView } from '@bakehouse/contracts';
import { caution } from '@bakehouse/kernel';
import { planInForce, type Row } from '@bakehouse/records';
import type { Approval } from '../formulas/versions.js';

/** An approved version of a plan. */
export type PlanRow = Row<'planVersion'> & Approval;

type Site = Pick<PlanOverview['sites'][number], 'site' | 'name'>;

export function planOverviewOf(rows: readonly PlanRow[], sites: readonly Site[], now: string): PlanOverview {
  return {
    sites: sites.map(({ site, name }) => {
      const plan = planInForce(rows, site, now);
      return { site, name, plan: plan ? { ...headOf(plan), content: plan.content } : null };
    }),
    history: rows.map(headOf),
    caution,
  };
}

export function planViewOf(rows: readonly PlanRow[], row: PlanRow, sites: readonly Site[], now: string): PlanView {
  return {
    ...headOf(row),
    content: row.content,
    loosened: row.loosened,
    inForceAt: sites.filter(({ site }) => planInForce(rows, site, now)?.id === row.id).map(({ site }) => site),
    caution,
  };
}

function headOf({ id, series, number, site, since, signed, note, content }: PlanRow): PlanOverview['history'][number] {
  return { id, series, number, site, since, signed, note, name: content.name, points: content.points.length };
}
