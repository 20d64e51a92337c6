import { upstreamOf } from './links.js';
import type { Need, Row, State } from '../base/state.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { answerOf, isFirstOfDay, pointApplies } from '../control/points-required.js';
import type { Finding } from '../rows/baking.js';
import { countingNeeds, readingsThatCount, unsettledAt } from '../control/unsettled.js';
import type { PointContent } from '../rows/plan-content.js';

type Batch = Row<'batch'>;

const makeAt = (state: State, lot: string): Row<'make'> | undefined =>
  state.knows({ in: 'make', id: lot }) ? state.get('make', lot) : undefined;

const asksOf = (point: PointContent): boolean => point.class === 'ccp' && point.frequency === 'each-make';

/** What has to be looked for, as far as can be named now, before `mustsUpstream` can be asked of a lot. */
export const mustNeeds = (state: State, lot: string): Need[] => upstreamOf(state, [lot]).flatMap((one) => mustNeedsAt(state, one));

/** A lot as a batch, where it is known to be one. */
export const batchAt = (state: State, lot: string): Row<'batch'> | undefined =>
  state.knows({ in: 'batch', id: lot }) ? state.get('batch', lot) : undefined;

const askedNeeds = (state: State, subject: string): Need[] => [
  ...countingNeeds(state, subject),
  { in: 'readingNotTaken', by: 'subject', value: subject },
  { in: 'deviation', by: 'subject', value: subject },
];

/** The same for `mustsAt` of one lot alone. */
export function mustNeedsAt(state: State, lot: string): Need[] {
  const batch = batchAt(state, lot);
  if (batch) return batchMustNeeds(state, batch);
  const make = makeAt(state, lot);
  if (make === undefined || make.plan === null) return [];
  const points: Need = { in: 'controlPoint', by: 'plan', value: make.plan };
  const formula: Need = { in: 'formulaVersion', id: make.formulaVersion };
  if (!state.knows(points) || !state.knows(formula)) return [points, formula];
  return pointsOf(state, make).length === 0 ? [] : askedNeeds(state, make.id);
}

/** The same of a batch: of itself, its make, and the loads that it was baked in with the first ones of their day. */
export function batchMustNeeds(state: State, batch: Batch): Need[] {
  const loads = loadsNeeds(batch).every((need) => state.knows(need)) ? loadsOfBatch(state, batch) : batch.loads;
  return [
    ...[batch.id, batch.run, batch.make, ...loads].flatMap((subject) => askedNeeds(state, subject)),
    ...(batch.plan === null ? [] : [{ in: 'controlPoint', by: 'plan', value: batch.plan } satisfies Need]),
    { in: 'loadLine', by: 'bakeDay', value: batch.bakedOn },
    ...loadsNeeds(batch),
    ...loads.map((load): Need => ({ in: 'loadLine', by: 'load', value: load })),
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

/** A *must* and what it is asked about. */
export interface AskedOf {
  readonly point: PointContent;
  readonly subject: string;
}

/** The *musts* that are asked of a make, or of a batch with its make and its loads, answered or not; none where the lot is neither. */
export function askedAt(state: State, lot: string): AskedOf[] {
  const batch = batchAt(state, lot);
  if (batch) return mustsOf(state, batch).flatMap((point) => askedSubjects(point, batch, state).map((subject) => ({ point, subject })));
  const make = makeAt(state, lot);
  return make === undefined || make.plan === null ? [] : pointsOf(state, make).map((point) => ({ point, subject: make.id }));
}

/** The critical points that are for a batch. */
export const mustsOf = (state: State, batch: Batch): PointContent[] =>
  (batch.plan === null ? [] : state.find('controlPoint', 'plan', batch.plan))
    .map(({ content }) => content)
    .filter((point) => point.class === 'ccp' && pointApplies(point, batch))
    .sort((a, b) => (a.key < b.key ? -1 : 1));

/** The *musts* of a make, or of a batch with its make and its loads, that have no answer yet; none where the lot is neither. */
export const mustsAt = (state: State, lot: string): Finding[] =>
  askedAt(state, lot).flatMap(({ point, subject }) => missingAt(point, subject, state));

/** What a point is asked about for a batch. With no load on record, an oven's point is asked about the batch itself: nothing shows that it was baked. */
function askedSubjects(point: PointContent, batch: Batch, state: State): string[] {
  const loads = loadsOfBatch(state, batch);
  switch (point.frequency) {
    case 'each-make':
      return [batch.make];
    case 'each-batch':
      return [batch.id];
    case 'each-load':
      return loads.length > 0 ? loads : [batch.id];
    case 'first-load-of-day': {
      const lines = [...state.find('loadLine', 'bakeDay', batch.bakedOn), ...loads.flatMap((l) => state.find('loadLine', 'load', l))];
      return loads.length > 0 ? loads.filter((l) => isFirstOfDay(l, batch.product, lines)) : [batch.id];
    }
    default:
      return [];
  }
}

/**
 * The *musts* of everything that went in, but a batch and its make whose own are asked for elsewhere, that have no answer yet: of its dough's parts, of the fillings, creams
 * and preferments in it, and of what was baked before and went in again. Each once. Needs `standingNeeds` and `mustNeeds`.
 */
export function mustsUpstream(state: State, { id, make }: Pick<Batch, 'id' | 'make'>): Finding[] {
  const own = new Set(mustsAt(state, id).map(keyOf));
  const found = new Map<string, Finding>();
  for (const one of upstreamOf(state, [id]))
    for (const finding of one === id || one === make ? [] : mustsAt(state, one))
      if (!own.has(keyOf(finding))) found.set(keyOf(finding), finding);
  return [...found.values()];
}

/** The concern that a critical reading about something was not taken by when that was used: one, whatever was made of it. */
export const notReadId = (subject: string, key: string): string => `not-read ${subject} ${key}`;

const keyOf = ({ code, subject, what }: Finding): string => `${code} ${subject} ${what ?? ''}`;

/**
 * What a *must* with no settled answer about a subject says: missing, or only doubtful, where the plan says that this holds. A reading that settles nothing
 * is a concern of its own, and somebody who said that it was not taken opened a deviation: both speak for themselves.
 */
export function missingAt(point: PointContent, subject: string, state: State): Finding[] {
  const finding = { subject, what: point.parameter, deviation: null, concern: null, saw: null };
  const answer = answerOf(point.key, subject, readingsThatCount(state, subject));
  if (unsettledAt(state, subject).some((u) => u.reading.pointKey === point.key)) return [];
  if (answer === 'unsettled' && (point.ifNotMonitored === 'hold' || point.ifOutside === 'hold')) return [{ code: 'unsettled', ...finding }];
  if (answer !== 'missing' || point.ifNotMonitored !== 'hold' || notNeeded(point, subject, state)) return [];
  return notTakenAbout(point, subject, state).length > 0 ? [] : [{ code: 'not-taken', ...finding, concern: notReadId(subject, point.key) }];
}

const answersTo = ({ key }: Pick<PointContent, 'key'>, subject: string, state: State): Row<'readingNotTaken'>[] =>
  state.find('readingNotTaken', 'subject', subject).filter((n) => n.pointKey === key);

/** Whether somebody said that a reading which is shared by a whole day was not needed again. */
export const notNeeded = (point: PointContent, subject: string, state: State): boolean =>
  point.frequency === 'first-load-of-day' && answersTo(point, subject, state).some((n) => n.answer === 'not-needed');

/** The deviations by which somebody said that a reading about a subject was not taken. */
export function notTakenAbout(point: Pick<PointContent, 'key'>, subject: string, state: State): Row<'deviation'>[] {
  const answered = answersTo(point, subject, state);
  return state.find('deviation', 'subject', subject).filter((d) => d.type === 'not-taken' && answered.some((n) => n.point === d.point));
}
