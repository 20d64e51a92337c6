import type { InspectedPlan } from '@bakehouse/contracts';
import type { Period } from '../period.js';
import type { Told } from '../period-rows.query.js';
import { grouped, type Scene } from './scene.js';

/** Versions of plans that were in force at some time of the period, or that something of it was made under. */
export function plansOf(scene: Scene, { begins, ends }: Period): InspectedPlan[] {
  const used = new Set([...scene.rows.make, ...scene.rows.load].map((m) => m.plan));
  return [...grouped(scene.rows.planVersion, 'series').values()].flatMap((versions) =>
    versions.flatMap((v, i) => {
      const until = versions[i + 1]?.since ?? null;
      const inForce = v.since < ends && (until === null || until > begins);
      return inForce || used.has(v.id) ? [planOf(scene, v, until)] : [];
    }),
  );
}

function planOf(scene: Scene, v: Told<'planVersion'>, until: string | null): InspectedPlan {
  const fact = scene.fact(v.entry);
  const { name, scope, team, points } = v.content;
  return {
    id: v.id,
    name,
    number: v.number,
    everySite: v.site === null,
    from: v.since,
    until,
    signedBy: scene.person(fact?.signedBy),
    signedAt: fact?.signedAt ?? null,
    meaning: fact?.meaning ?? null,
    scope,
    team,
    points: points.map(({ formulas: _formulas, products: _products, ...point }) => point),
  };
}
