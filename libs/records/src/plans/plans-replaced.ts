import type { Need, Row, State } from '../base/state.js';
import { inForce, planInForce } from '../control/in-force.js';

/** Where the plans that a version takes the place of are found; each is then looked up by its id. */
export const allPlans: Need = { in: 'planLife', by: 'rule', value: 'life' };

/** The plans that are in force where a version is for, at an instant: for every site one may be in force at some and another elsewhere. */
export function plansReplaced(state: State, site: string | null, at: string): readonly string[] {
  const lives = state.find('planLife', 'rule', 'life');
  const sites = [...new Set(lives.flatMap((l) => l.site ?? []))];
  const forAll = inForce(
    lives.filter((l) => l.site === null),
    at,
  );
  const found: (Row<'planLife'> | undefined)[] =
    site === null ? [forAll, ...sites.map((s) => planInForce(lives, s, at))] : [planInForce(lives, site, at)];
  return [...new Set(found.flatMap((l) => (l ? [l.plan] : [])))];
}
