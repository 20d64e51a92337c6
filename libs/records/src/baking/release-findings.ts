import type { Need, Row, State } from '../base/state.js';
import { isFirstOfDay, pointApplies } from '../control/points-required.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { countingNeeds } from '../control/unsettled.js';
import type { Finding } from '../rows/baking.js';
import type { PointContent } from '../rows/plan-content.js';
import type { Concern } from '../standing/concern.js';
import { notKnownNeeds, notKnownUpstream } from '../standing/not-known.js';
import { missingAt, mustNeeds, mustsUpstream } from '../standing/musts.js';
import { destroyedWhole, goneNeeds } from '../standing/surely-gone.js';
import { concernsOf, standingNeeds, type Reaching } from '../standing/standings.js';

/** Goes up when the rule changes; stored with each release. */
export const releaseRule = 4;

type Batch = Row<'batch'>;

/** What a release speaks for: the batch, its run, its make and its loads. */
export const subjectsOf = (b: Batch, state: State): string[] => [...new Set([b.id, b.run, b.make, ...loadsOfBatch(state, b)])];

/** What has to be looked for, once the batch is there, before `releaseFindings` can be asked: ask again until it names nothing new. */
export function releaseNeeds(b: Batch, state: State): Need[] {
  const loads = loadsNeeds(b).every((need) => state.knows(need)) ? loadsOfBatch(state, b) : b.loads;
  return [
    ...standingNeeds(state, [b.id]),
    ...goneNeeds(state, b.id),
    ...mustNeeds(state, b.id),
    ...notKnownNeeds(state, b.id),
    ...[b.id, b.run, b.make, ...loads].flatMap((s): Need[] => [
      ...countingNeeds(state, s),
      { in: 'deviation', by: 'subject', value: s },
      { in: 'readingNotTaken', by: 'subject', value: s },
    ]),
    ...(b.plan === null ? [] : [{ in: 'controlPoint', by: 'plan', value: b.plan } satisfies Need]),
    { in: 'loadLine', by: 'bakeDay', value: b.bakedOn },
    ...loadsNeeds(b),
    ...loads.map((load): Need => ({ in: 'loadLine', by: 'load', value: load })),
  ];
}

/**
 * What keeps a batch from leaving by rule, as the records stand; nothing means that it may go. In this order: no plan to go by; that all of it was destroyed; every concern that
 * reaches the batch, however far upstream it begins; a *must* of the batch, its loads or any make that went in whose reading is missing where the plan
 * says that a miss holds, or has only doubtful readings; a lot that went in and that nobody has named. A screen that has worked the concerns out for all its lots gives those of this one.
 */
export function releaseFindings(batch: Batch, state: State, reaching = concernsOf(state, [batch.id]).get(batch.id) ?? []): Finding[] {
  return [
    ...(batch.plan === null ? [{ code: 'no-plan' as const, subject: batch.id, what: null, deviation: null, concern: null }] : []),
    ...(destroyedWhole(state, batch.id)
      ? [{ code: 'destroyed' as const, subject: batch.id, what: null, deviation: null, concern: null }]
      : []),
    ...asFindings(reaching),
    ...unanswered(batch, state),
    ...mustsUpstream(state, batch.id, batch.make),
    ...notKnownUpstream(state, batch.id),
  ];
}

/** Concerns that reach a lot, as findings: what they begin at, and how it was put into words. */
export const asFindings = (reaching: readonly Reaching[]): Finding[] => reaching.map(({ concern }) => findingOf(concern));

const findingOf = ({ id, type, subject, what }: Concern): Finding => ({
  code: type,
  subject,
  what,
  deviation: type === 'open-deviation' || type === 'closed-deviation' ? id : null,
  concern: id,
});

function unanswered(batch: Batch, state: State): Finding[] {
  if (batch.plan === null) return [];
  const points = state.find('controlPoint', 'plan', batch.plan).filter((p) => p.content.class === 'ccp' && pointApplies(p.content, batch));
  return [...points]
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .flatMap(({ content }) => askedSubjects(content, batch, state).flatMap((subject) => missingAt(content, subject, state)));
}

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
