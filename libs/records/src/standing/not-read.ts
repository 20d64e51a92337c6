import type { Need, Row, State } from '../base/state.js';
import { holding, holdingNeeds } from '../control/holds-release.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import type { Finding } from '../rows/baking.js';
import { flowType } from '../rows/stock.js';
import type { AtPoint } from './first-load.js';
import { staysAway } from './arithmetic.js';
import { releasedNeeds } from './released.js';
import { alsoThisLot, alsoThisNeeds } from './same-lot.js';
import { askedAt, mustNeedsAt, mustsAt, mustsOf, notNeeded, notReadId, notTakenAbout, type AskedOf } from './musts.js';

/** A reading that the plan asks for, and that was not taken by when something else was made of the lot, or it was released, sent out or put on a counter. */
export interface NotRead {
  readonly id: string;
  readonly subject: string;
  readonly parameter: string;
  /** When the lot was used first. */
  readonly since: string;
}

/** What was divided or counted out is still the make itself, and waits for its readings as it did. */
const staysItself: readonly Row<'flow'>['type'][] = flowType.extract(['divided', 'batched']).options;
/** What is not there any more was not used. */
const usesNothing: readonly Row<'departure'>['channel'][] = staysAway;

/** Whose readings a lot stands on: its own where it was made or baked, and those of its make where it was divided from it. */
export function readFor(state: State, lot: string): string {
  const into: Need = { in: 'flow', by: 'target', value: lot };
  const from = state.knows(into) ? state.find('flow', 'target', lot).find((f) => f.type === 'divided') : undefined;
  return from?.source ?? lot;
}

const mustHold = ({ point }: AskedOf): boolean => point.ifNotMonitored === 'hold';

/** What has to be looked for, as far as can be named now, before `notReadAt` can be asked of a lot. A plan with no such point costs the look at its points alone. */
export function notReadNeeds(state: State, lot: string): Need[] {
  const maker = readFor(state, lot);
  const of: Need[] = [
    { in: 'make', id: maker },
    { in: 'batch', id: lot },
  ];
  if (!of.every((need) => state.knows(need))) return of;
  const batch = state.get('batch', lot);
  const points = batch ? batchPointNeeds(state, batch) : makePointNeeds(state, maker);
  const asked = [...of, ...points];
  if (!asked.every((need) => state.knows(need))) return asked;
  const subjects = askedAt(state, maker).filter(mustHold);
  if (subjects.length === 0) return asked;
  return [...asked, ...useNeeds(state, lot), ...subjects.flatMap(({ subject }) => subjectNeeds(state, subject))];
}

const subjectNeeds = (state: State, subject: string): Need[] => [
  ...holdingNeeds(state, subject),
  { in: 'readingNotTaken', by: 'subject', value: subject },
];

/** Of a make, what names its points; its readings are asked for once there are any. */
const makePointNeeds = (state: State, maker: string): Need[] =>
  mustNeedsAt(state, maker).filter((need) => need.in === 'controlPoint' || need.in === 'formulaVersion');

function batchPointNeeds(state: State, batch: Row<'batch'>): Need[] {
  if (batch.plan === null) return [];
  const points: Need = { in: 'controlPoint', by: 'plan', value: batch.plan };
  if (!state.knows(points)) return [points];
  const musts = mustsOf(state, batch).filter((point) => point.ifNotMonitored === 'hold');
  if (musts.length === 0) return [points];
  const loads = loadsNeeds(batch);
  if (!musts.some((point) => point.frequency === 'first-load-of-day') || !loads.every((need) => state.knows(need)))
    return [points, ...loads];
  const lines = loadsOfBatch(state, batch).map((load): Need => ({ in: 'loadLine', by: 'load', value: load }));
  return [points, ...loads, ...lines, { in: 'loadLine', by: 'bakeDay', value: batch.bakedOn }];
}

function useNeeds(state: State, lot: string): Need[] {
  const named = alsoThisNeeds(state, lot);
  const also = named.every((need) => state.knows(need)) ? alsoThisLot(state, lot) : [];
  return [
    ...named,
    ...releasedNeeds(lot),
    ...[lot, ...also].flatMap((one): Need[] => [
      { in: 'flow', by: 'source', value: one },
      { in: 'departure', by: 'lot', value: one },
      { in: 'onCounter', by: 'lot', value: one },
    ]),
  ];
}

/**
 * When a lot was used first, before an instant or ever: something else was made of it, it was released, it was sent to somebody or put on a counter. Null where it
 * was not.
 */
function usedFirst(state: State, lot: string, at: string | null): string | null {
  const lots = [lot, ...alsoThisLot(state, lot)];
  const uses = [
    ...lots.flatMap((one) => state.find('flow', 'source', one)).filter((f) => !staysItself.includes(f.type)),
    ...lots.flatMap((one) => state.find('departure', 'lot', one)).filter((d) => d.decided === null && !usesNothing.includes(d.channel)),
    ...lots.flatMap((one) => state.find('onCounter', 'lot', one)).filter((c) => c.way === 'on'),
    ...state.find('release', 'batch', lot),
  ];
  return (
    uses
      .map((use) => use.at)
      .filter((one) => at === null || one < at)
      .sort()[0] ?? null
  );
}

/**
 * The readings that a lot stands on, of points where the plan says that a miss holds, that were not taken by when it was used first, as known at an instant, or
 * now. One of before that is told late counts; one that was taken later does not. What somebody said of it is the deviation of that, as long as that one holds.
 * Until it is used, a lot waits for them and nothing speaks against it. Needs `notReadNeeds`.
 */
export function notReadAt(state: State, lot: string, at: string | null = null): NotRead[] {
  const asked = isKnown(state, lot) ? askedAt(state, readFor(state, lot)).filter(mustHold) : [];
  const since = asked.length === 0 ? null : usedFirst(state, lot, at);
  if (since === null) return [];
  return asked
    .filter(
      ({ point, subject }) =>
        !readBy(state, { point, subject }, since) && !notNeeded(point, subject, state) && !saidOf(state, { point, subject }, at),
    )
    .map(({ point: { key, parameter }, subject }) => ({ id: notReadId(subject, key), subject, parameter, since }));
}

/** What of the same has no answer yet: said where a lot is offered, since what is made of it before it is read is on hold for it. Needs all rows about the lot. */
export const stillToRead = (state: State, lot: string): string[] => [
  ...new Set(mustsAt(state, readFor(state, lot)).flatMap((f) => (f.code === 'not-taken' ? (f.what ?? []) : []))),
];

const isKnown = (state: State, lot: string): boolean => notReadNeeds(state, lot).every((need) => state.knows(need));

const readBy = (state: State, { point, subject }: AskedOf, since: string): boolean =>
  state.find('reading', 'subject', subject).some((r) => r.pointKey === point.key && r.at <= since);

function saidOf(state: State, { point, subject }: AskedOf, at: string | null): boolean {
  const holds = new Set(holding(state, subject).map((d) => d.id));
  return notTakenAbout(point, subject, state).some((d) => holds.has(d.id) && (at === null || d.at <= at));
}

/** The concerns that a deviation about a reading that was not taken tells of. */
export const notReadIds = (state: State, d: AtPoint): string[] =>
  d.type === 'not-taken' && state.knows({ in: 'readingNotTaken', by: 'subject', value: d.subject })
    ? state.find('readingNotTaken', 'subject', d.subject).flatMap((n) => (n.point === d.point ? notReadId(d.subject, n.pointKey) : []))
    : [];

/**
 * What an exception covers that was signed on a missing reading: that reading, and what somebody says of it later; or the other way about, where it was signed on what
 * somebody had said.
 */
export function notReadCovered(
  state: State,
  { code, subject, what, concern }: Pick<Finding, 'code' | 'subject' | 'what' | 'concern'>,
): string[] {
  const known = state.knows({ in: 'deviation', by: 'subject', value: subject }) ? state.find('deviation', 'subject', subject) : [];
  const told = known.filter((d) => d.type === 'not-taken');
  if (code === 'open-deviation' || code === 'closed-deviation')
    return told.filter((d) => d.id === concern).flatMap((d) => notReadIds(state, d));
  if (code !== 'not-taken' && code !== 'not-read') return [];
  const same = told.filter((d) => (concern === null ? d.summary === what : notReadIds(state, d).includes(concern)));
  return [concern ?? notReadCalled(subject, what), ...same.map((d) => d.id)];
}

/** How a release from before findings named this concern tells of it. */
export const notReadCalled = (subject: string, what: string | null): string => `not-taken ${subject} ${what ?? ''}`;
