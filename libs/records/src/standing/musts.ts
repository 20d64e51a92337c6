import { upstreamOf } from './links.js';
import type { Need, Row, State } from '../base/state.js';
import { answerOf, pointApplies } from '../control/points-required.js';
import type { Finding } from '../rows/baking.js';
import { countingNeeds, readingsThatCount, unsettledAt } from '../control/unsettled.js';
import type { PointContent } from '../rows/plan-content.js';

const makeAt = (state: State, lot: string): Row<'make'> | undefined =>
  state.knows({ in: 'make', id: lot }) ? state.get('make', lot) : undefined;

const asksOf = (point: PointContent): boolean => point.class === 'ccp' && point.frequency === 'each-make';

/** What has to be looked for, as far as can be named now, before `mustsUpstream` can be asked of a lot. */
export const mustNeeds = (state: State, lot: string): Need[] => upstreamOf(state, [lot]).flatMap((one) => mustNeedsAt(state, one));

/** The same for `mustsAt` of one lot alone. */
export function mustNeedsAt(state: State, lot: string): Need[] {
  const make = makeAt(state, lot);
  if (make === undefined || make.plan === null) return [];
  const points: Need = { in: 'controlPoint', by: 'plan', value: make.plan };
  const formula: Need = { in: 'formulaVersion', id: make.formulaVersion };
  if (!state.knows(points) || !state.knows(formula)) return [points, formula];
  return pointsOf(state, make).length === 0
    ? []
    : [
        ...countingNeeds(state, make.id),
        { in: 'readingNotTaken', by: 'subject', value: make.id },
        { in: 'deviation', by: 'subject', value: make.id },
      ];
}

const pointsOf = (state: State, make: Row<'make'>): PointContent[] => {
  const steps = state.get('formulaVersion', make.formulaVersion)?.content.steps.map((s) => s.type) ?? [];
  return state
    .find('controlPoint', 'plan', make.plan ?? '')
    .map(({ content }) => content)
    .filter((point) => asksOf(point) && pointApplies(point, { formula: make.formula, product: null, steps }))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
};

/** The *musts* of a make that have no answer yet; none where the lot is not a make. */
export function mustsAt(state: State, lot: string): Finding[] {
  const make = makeAt(state, lot);
  return make === undefined || make.plan === null ? [] : pointsOf(state, make).flatMap((point) => missingAt(point, make.id, state));
}

/**
 * The *musts* of every make that went in, but one whose own are asked for elsewhere, that have no answer yet: of its dough, and of the fillings, creams
 * and preferments in it. Needs `standingNeeds`.
 */
export const mustsUpstream = (state: State, lot: string, except: string): Finding[] =>
  upstreamOf(state, [lot])
    .filter((one) => one !== except)
    .flatMap((one) => mustsAt(state, one));

/**
 * What a *must* with no settled answer about a subject says: missing, or only doubtful, where the plan says that this holds. A reading that settles nothing
 * is a concern of its own, and somebody who said that it was not taken opened a deviation: both speak for themselves.
 */
export function missingAt(point: PointContent, subject: string, state: State): Finding[] {
  const finding = { subject, what: point.parameter, deviation: null, concern: null };
  const answer = answerOf(point.key, subject, readingsThatCount(state, subject));
  if (unsettledAt(state, subject).some((u) => u.reading.pointKey === point.key)) return [];
  if (answer === 'unsettled' && (point.ifNotMonitored === 'hold' || point.ifOutside === 'hold')) return [{ code: 'unsettled', ...finding }];
  if (answer !== 'missing' || point.ifNotMonitored !== 'hold') return [];
  const answered = state.find('readingNotTaken', 'subject', subject).filter((n) => n.pointKey === point.key);
  if (point.frequency === 'first-load-of-day' && answered.some((n) => n.answer === 'not-needed')) return [];
  const spoken = state
    .find('deviation', 'subject', subject)
    .some((d) => d.type === 'not-taken' && answered.some((n) => n.point === d.point));
  return spoken ? [] : [{ code: 'not-taken', ...finding }];
}
