import type { InspectedPlan } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { PeriodRecords } from './period-records.js';
import type { Period, RecordedRow } from './rows.js';

/** The plan versions in force during the period, or used by something made in it. */
export function plansOf(records: PeriodRecords, { begins, ends }: Period): InspectedPlan[] {
  const used = new Set([...records.rows.make, ...records.rows.load].map((m) => m.plan));
  return [...grouped(records.rows.planVersion, (row) => row.series).values()].flatMap((versions) =>
    versions.flatMap((v, i) => {
      const until = versions[i + 1]?.since ?? null;
      const inForce = v.since < ends && (until === null || until > begins);
      return inForce || used.has(v.id) ? [planOf(records, v, until)] : [];
    }),
  );
}

function planOf(records: PeriodRecords, v: RecordedRow<'planVersion'>, until: string | null): InspectedPlan {
  const fact = records.fact(v.entry);
  const { name, scope, team, points } = v.content;
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
    points: points.map(({ formulas: _formulas, products: _products, ...point }) => point),
  };
}
