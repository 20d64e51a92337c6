import { refuse, type Refused } from '@bakehouse/kernel';
import { loosenedBy } from './loosened.js';
import { looseningText } from './loosening-text.js';
import { plansReplaced } from './plans-replaced.js';
import type { State } from '../base/state.js';
import type { LoosenedAsApproved, LoosenedPoint, LooseningBasis } from '../rows/loosened.js';
import type { PlanContent } from '../rows/plan-content.js';

/** What a plan lets through that those in force where it is for do not, each control point once. Needs each of `plansReplaced`. */
export function loosenedInForce(state: State, site: string | null, content: PlanContent, at: string): LoosenedPoint[] {
  const all = new Map<string, LoosenedPoint>();
  for (const plan of plansReplaced(state, site, at)) {
    const before = state.get('planVersion', plan);
    for (const one of before ? loosenedBy(before.content, content) : []) {
      const known = all.get(one.point);
      all.set(one.point, known ? { ...known, changes: withNew(known.changes, one.changes) } : one);
    }
  }
  return [...all.values()];
}

function withNew(known: LoosenedPoint['changes'], more: LoosenedPoint['changes']): LoosenedPoint['changes'] {
  const said = new Set(known.map((c) => JSON.stringify(c)));
  return [...known, ...more.filter((c) => !said.has(JSON.stringify(c)))];
}

/** Every loosened point of which nobody says why, and what that rests on: a refusal that names the point, the old limit and the new. */
export const loosenedProblems = (loosened: readonly LoosenedPoint[], said: readonly LooseningBasis[]): Refused[] =>
  loosened
    .filter(({ point }) => !said.some((s) => s.point === point))
    .map(({ name, changes }) =>
      refuse(
        'limit-loosened',
        'payload.loosened',
        `why, who validated it, on what and when, for ${name}: ${changes.map((c) => looseningText(c)).join('; ')}`,
      ),
    );

/** What is kept of it: what is loosened, beside why and what it rests on. What was said of a point that is not loosened says nothing. */
export const asApproved = (loosened: readonly LoosenedPoint[], said: readonly LooseningBasis[]): LoosenedAsApproved[] =>
  loosened.flatMap((one) => {
    const basis = said.find((s) => s.point === one.point);
    return basis ? [{ ...one, ...basis }] : [];
  });
