import type { InspectedPlan } from '@bakehouse/contracts';
import { planWarnings, plansInTurn, validationOf, wasInForce } from '@bakehouse/records';
import type { PeriodRecords } from './period-records.js';
import type { Period, RecordedRow } from './rows.js';

/** The plan versions in force during the period, or used by something made in it. */
export function plansOf(records: PeriodRecords, period: Period): InspectedPlan[] {
  const used = new Set([...records.rows.make, ...records.rows.load].map((m) => m.plan));
  return plansInTurn(records.rows.planVersion)
    .filter((reign) => wasInForce(reign, period) || used.has(reign.plan.id))
    .map(({ plan, until }) => planOf(records, plan, until));
}

function planOf(records: PeriodRecords, v: RecordedRow<'planVersion'>, until: string | null): InspectedPlan {
  const fact = records.fact(v.entry);
  const { name, scope, team, pastLife, points } = v.content;
  return {
    id: v.id,
    name,
    number: v.number,
    everySite: v.site === null,
    from: v.since,
    until,
    signedBy: records.person(fact?.signedBy),
    signedAt: fact?.signedAt ?? null,
    meaning: fact?.meaning ?? null,
    scope,
    team,
    pastLife,
    points: points.map(({ formulas: _formulas, products: _products, ...point }) => ({ ...point, validated: validationOf(v, point) })),
    loosened: v.loosened,
    warnings: planWarnings(points),
  };
}
