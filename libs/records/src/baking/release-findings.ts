import type { Need, Row, State } from '../base/state.js';
import { holding, holdingNeeds } from '../control/holds-release.js';
import { answerOf, isFirstOfDay, pointApplies } from '../control/points-required.js';
import type { Finding } from '../rows/baking.js';
import type { PointContent } from '../rows/plan-content.js';

/** Goes up when the rule changes; stored with each release. */
export const releaseRule = 1;

type Batch = Row<'batch'>;

/** What a release speaks for: the batch, its run, its make and its loads. */
export const subjectsOf = (b: Batch): string[] => [...new Set([b.id, b.run, b.make, ...b.loads])];
/** Lots that may be held: a batch's, its run's and its make's have their ids. */
const lotsOf = (b: Batch): string[] => [...new Set([b.id, b.run, b.make])];

/** What has to be loaded, once the batch is there, before `releaseFindings` can be asked. */
export const releaseNeeds = (b: Batch): Need[] => [
  ...subjectsOf(b).flatMap((s): Need[] => [...holdingNeeds(s), { in: 'readingNotTaken', by: 'subject', value: s }]),
  ...lotsOf(b).flatMap((lot): Need[] => [
    { in: 'hold', by: 'lot', value: lot },
    { in: 'holdLifted', by: 'lot', value: lot },
  ]),
  ...(b.plan === null ? [] : [{ in: 'controlPoint', by: 'plan', value: b.plan } satisfies Need]),
  { in: 'loadLine', by: 'bakeDay', value: b.bakedOn },
  ...b.loads.map((load): Need => ({ in: 'loadLine', by: 'load', value: load })),
];

/**
 * What keeps a batch from leaving by rule, as the records stand; nothing means that it may go. In this order: no plan to go by; holds on the batch, its run
 * or its make; deviations about it, its run, make or loads that hold (see `holdsRelease`); a *must* whose reading is missing where the plan says that a
 * miss holds; a *must* with only doubtful readings where the plan says that a miss or a value outside holds.
 */
export function releaseFindings(batch: Batch, state: State): Finding[] {
  const subjects = subjectsOf(batch);
  return [
    ...(batch.plan === null ? [{ code: 'no-plan' as const, subject: batch.id, what: null, deviation: null }] : []),
    ...heldLots(batch, state).map((h): Finding => ({ code: 'held', subject: h.lot, what: h.because, deviation: null })),
    ...subjects
      .flatMap((s) => holding(state, s))
      .map((d): Finding => ({ code: 'open-deviation', subject: d.subject, what: d.summary, deviation: d.id })),
    ...unanswered(batch, state),
  ];
}

/** Holds on a batch, its run or its make that nobody has lifted. */
export function heldLots(batch: Batch, state: State): Row<'hold'>[] {
  return lotsOf(batch).flatMap((lot) => {
    const lifted = new Set(state.find('holdLifted', 'lot', lot).map((f) => f.hold));
    return state.find('hold', 'lot', lot).filter((h) => !lifted.has(h.id));
  });
}

function unanswered(batch: Batch, state: State): Finding[] {
  if (batch.plan === null) return [];
  const points = state.find('controlPoint', 'plan', batch.plan).filter((p) => p.content.class === 'ccp' && pointApplies(p.content, batch));
  return [...points]
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .flatMap(({ content }) => askedSubjects(content, batch, state).flatMap((subject) => findingAt(content, subject, state)));
}

/** What a point is asked about for a batch. With no load on record, an oven's point is asked about the batch itself: nothing shows that it was baked. */
function askedSubjects(point: PointContent, batch: Batch, state: State): string[] {
  switch (point.frequency) {
    case 'each-make':
      return [batch.make];
    case 'each-batch':
      return [batch.id];
    case 'each-load':
      return batch.loads.length > 0 ? [...batch.loads] : [batch.id];
    case 'first-load-of-day': {
      const lines = [...state.find('loadLine', 'bakeDay', batch.bakedOn), ...batch.loads.flatMap((l) => state.find('loadLine', 'load', l))];
      return batch.loads.length > 0 ? batch.loads.filter((l) => isFirstOfDay(l, batch.product, lines)) : [batch.id];
    }
    default:
      return [];
  }
}

function findingAt(point: PointContent, subject: string, state: State): Finding[] {
  const deviations = state.find('deviation', 'subject', subject);
  const answer = answerOf(point.key, subject, state.find('reading', 'subject', subject));
  const answered = state.find('readingNotTaken', 'subject', subject).filter((n) => n.pointKey === point.key);
  if (answer === 'unsettled' && (point.ifNotMonitored === 'hold' || point.ifOutside === 'hold'))
    return [
      {
        code: 'unsettled',
        subject,
        what: point.parameter,
        deviation: null,
      },
    ];
  if (answer !== 'missing' || point.ifNotMonitored !== 'hold') return [];
  if (point.frequency === 'first-load-of-day' && answered.some((n) => n.answer === 'not-needed')) return [];
  // Somebody said that it was not taken: the deviation of that speaks for itself, open or decided.
  if (deviations.some((d) => d.type === 'not-taken' && answered.some((n) => n.point === d.point))) return [];
  return [{ code: 'not-taken', subject, what: point.parameter, deviation: null }];
}
