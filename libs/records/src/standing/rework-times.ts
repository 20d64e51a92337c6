import { hoursAfter } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';
import { longestReworkDays } from '../rows/formula-content.js';
import { flowsInto, lateDays, laterNeeds } from './later-content.js';
import { clearSince } from './links.js';
import { isRework, namingsOf, putIntoNeeds, reallyThat, reworkRuleOf, ruleNeeds } from './put-back.js';

const daysBefore = (at: string, days: number): string => hoursAfter(at, -24 * days);
/** Rework of before this does not count for what goes in at an instant. */
export const countsSince = (at: string): string => daysBefore(at, longestReworkDays);

interface Step {
  readonly lot: string;
  readonly times: 0 | 1;
}

/** What a lot comes of directly since an instant, each with whether it was put in there as rework. Behind a clear lot there is none that counts. */
function stepsInto(state: State, lot: string, since: string, at: string | null): Step[] {
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => at === null || r.at <= at);
  const same = then(namingsOf(state, lot)).flatMap((i): Step[] => (i.same === null ? [] : [{ lot: i.same, times: 0 }]));
  if (clearSince(state, lot) !== null || !state.knows({ in: 'flow', by: 'target', value: lot })) return same;
  const rule = reworkRuleOf(state, lot);
  const into = then(flowsInto(state, lot)).filter((f) => f.source !== lot && f.at >= since);
  return [
    ...same,
    ...into.map((f): Step => ({ lot: f.source, times: isRework(f.type, rule && reallyThat(state, f.source, at)?.material, rule) ? 1 : 0 })),
  ];
}

/** How many times the food of a lot was put back when it is put back now: on the way on which it was most often, no further than one more than `most`. Needs `timesNeeds`. */
export function timesPutBack(
  state: State,
  lot: string,
  of: { readonly since: string; readonly most: number; readonly at: string | null },
): number {
  const best = new Map([[lot, 1]]);
  const open = [lot];
  for (const one of open) {
    const times = best.get(one) ?? 1;
    if (times > of.most) return times;
    for (const step of stepsInto(state, one, of.since, of.at)) {
      const then = times + step.times;
      if ((best.get(step.lot) ?? 0) >= then) continue;
      best.set(step.lot, then);
      open.push(step.lot);
    }
  }
  return Math.max(...best.values());
}

/** What has to be looked for, as far as can be named now, before `timesPutBack` can be asked of a lot. */
export function timesNeeds(state: State, lot: string, since: string): Need[] {
  const seen = new Set([lot]);
  const needs: Need[] = [];
  for (const one of seen) {
    needs.push({ in: 'lotIdentified', by: 'lot', value: one });
    if (clearSince(state, one) === null) {
      const into: Need = { in: 'flow', by: 'target', value: one };
      needs.push(...(state.knows(into) ? [into, ...laterNeeds(state, one)] : [{ ...into, follow: 'source' } satisfies Need]));
      needs.push(...ruleNeeds(state, one), ...(reworkRuleOf(state, one) === null ? [] : putIntoNeeds(state, one)));
    }
    for (const step of stepsInto(state, one, since, null)) seen.add(step.lot);
  }
  return needs;
}

/** Whether something was put back into a lot so recently before an instant that what comes of it has to count it, told late or not: then nobody may stop looking there. */
export const putBackRecently = (state: State, lot: string, before: string): boolean =>
  stepsInto(state, lot, daysBefore(before, longestReworkDays + lateDays), null).some((step) => step.times > 0);
