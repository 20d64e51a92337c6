import { latest } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { answerOf, firstOfDay, pointApplies } from '../control/points-required.js';
import { countingNeeds, doubtAbout, unsettledAt, type Unsettled } from '../control/unsettled.js';
import type { Finding } from '../rows/baking.js';
import type { PointContent } from '../rows/plan-content.js';

type Batch = Row<'batch'>;
type Line = Row<'loadLine'>;

/** What the first load of its day says against a batch that was baked later that day, by a point that is read there for all. */
export type AtFirstLoad = { readonly load: string; readonly parameter: string } & (
  | { readonly says: 'outside' | 'missing'; readonly id: string; readonly since: string }
  | { readonly says: 'unsettled'; readonly unsettled: Unsettled }
);

const idOf = { outside: 'first-load-outside', missing: 'first-load-not-read' } as const;
const concernId = (says: keyof typeof idOf, load: string, key: string): string => `${idOf[says]} ${load} ${key}`;
/** The point that such a concern is about, by its key. */
export const firstLoadKeyIn = (concern: string): string | null => concern.split(' ').slice(2).join(' ') || null;

const pointsOf = (batch: Batch): Need | null => (batch.plan === null ? null : { in: 'controlPoint', by: 'plan', value: batch.plan });

function pointsAtFirst(state: State, batch: Batch): PointContent[] {
  const need = pointsOf(batch);
  if (batch.plan === null || need === null || !state.knows(need)) return [];
  return state
    .find('controlPoint', 'plan', batch.plan)
    .map(({ content }) => content)
    .filter((c) => c.class === 'ccp' && c.frequency === 'first-load-of-day' && pointApplies(c, batch))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
}

const dayOf = (day: string): Need => ({ in: 'loadLine', by: 'bakeDay', value: day });

/** The lines by which a batch's product went into the ovens that it was baked in. Each load's day is its own: what is baked after midnight may count for the day before. */
const ownLines = (state: State, batch: Batch): Line[] =>
  loadsOfBatch(state, batch)
    .filter((load) => state.knows({ in: 'loadLine', by: 'load', value: load }))
    .flatMap((load) => state.find('loadLine', 'load', load))
    .filter((line) => line.product === batch.product);

/** The first load of the day of this product in the oven of one of its lines. */
const firstOf = (state: State, own: Line, at: string | null = null): string =>
  firstOfDay(
    own,
    state.find('loadLine', 'bakeDay', own.bakeDay).filter((l) => at === null || l.at <= at),
  );

/** What has to be looked for, as far as can be named now, before `atFirstLoad` can be asked of a batch. A plan with no such point costs the look at its points alone. */
export function firstLoadNeeds(state: State, batch: Batch): Need[] {
  const points = pointsOf(batch);
  if (points === null || !state.knows(points)) return points === null ? [] : [points];
  if (pointsAtFirst(state, batch).length === 0 || !loadsNeeds(batch).every((need) => state.knows(need))) return [points];
  const own = loadsOfBatch(state, batch).map((load): Need => ({ in: 'loadLine', by: 'load', value: load }));
  const lines = own.every((need) => state.knows(need)) ? ownLines(state, batch) : [];
  // A load is of one day: the lines of the batch's own pieces tell it before those of the whole load are there.
  const days = [...lines, ...state.find('loadLine', 'run', batch.run)].map((line) => dayOf(line.bakeDay));
  const firsts = days.every((need) => state.knows(need)) ? lines.map((line) => firstOf(state, line)) : [];
  return [
    points,
    ...own,
    ...days,
    ...firsts.flatMap((first): Need[] => [
      ...countingNeeds(state, first),
      { in: 'loadLine', by: 'load', value: first },
      { in: 'readingNotTaken', by: 'subject', value: first },
      { in: 'deviation', by: 'subject', value: first },
    ]),
  ];
}

/** What a batch's standing rests on beside what is recorded about itself: the days that it was baked on, and the first loads of these. */
export function restsOn(state: State, lot: string): { readonly days: string[]; readonly firstLoads: string[] } {
  const batch = state.knows({ in: 'batch', id: lot }) ? state.get('batch', lot) : undefined;
  const lines = batch && pointsAtFirst(state, batch).length > 0 ? ownLines(state, batch) : [];
  return { days: lines.map((line) => line.bakeDay), firstLoads: lines.map((line) => firstOf(state, line)) };
}

/**
 * What the points that are read at the first load of the day say against a batch that was baked later that day, as known at an instant, or now: the core of
 * the first load speaks for it, unless its own was read and within. In order of what happened: a load that is recorded late and was earlier is the first.
 * Needs `firstLoadNeeds`.
 */
export function atFirstLoad(state: State, batch: Batch, at: string | null = null): AtFirstLoad[] {
  const points = pointsAtFirst(state, batch);
  if (points.length === 0) return [];
  const loads = loadsOfBatch(state, batch);
  const lines = ownLines(state, batch).filter((line) => at === null || line.at <= at);
  return points.flatMap((point) => {
    const left = lines.filter((line) => saysOf(state, point.key, line.load, at).says !== 'within');
    const firsts = [...new Set(left.map((line) => firstOf(state, line, at)))].filter((load) => !loads.includes(load));
    return firsts.flatMap((load) => against(state, point, load, at));
  });
}

function saysOf(state: State, key: string, load: string, at: string | null) {
  const readings = state.find('reading', 'subject', load).filter((r) => r.pointKey === key && (at === null || r.at <= at));
  const last = latest(readings.filter((r) => r.verdict !== 'not-believable'));
  const says = answerOf(key, load, readings);
  return { says: says === 'within' && last && doubtAbout(state, last, at) !== null ? ('unsettled' as const) : says, last };
}

function against(state: State, { key, parameter, ifNotMonitored }: PointContent, load: string, at: string | null): AtFirstLoad[] {
  const { says, last } = saysOf(state, key, load, at);
  switch (says) {
    case 'within':
      return [];
    case 'outside':
      return [{ says, load, parameter, id: concernId(says, load, key), since: last?.at ?? '' }];
    case 'unsettled':
      return unsettledAt(state, load, at)
        .filter((u) => u.reading.pointKey === key)
        .map((unsettled): AtFirstLoad => ({ says, load, parameter, unsettled }));
    case 'missing': {
      const told = state.find('readingNotTaken', 'subject', load).filter((n) => n.pointKey === key && (at === null || n.at <= at));
      if (ifNotMonitored !== 'hold' || told.some((n) => n.answer === 'not-needed')) return [];
      const since = latest(state.find('loadLine', 'load', load))?.at ?? '';
      return [{ says, load, parameter, id: concernId(says, load, key), since }];
    }
  }
}

/**
 * The concerns that an exception ended which was signed on a missing reading of a load: before it was a concern of its own it was told of as such, and once a load
 * that was earlier is recorded late, the batch's own is no longer the first. Needs `firstLoadNeeds`.
 */
export function firstLoadsNotRead(state: State, batch: Batch, findings: readonly Pick<Finding, 'code' | 'subject' | 'what'>[]): string[] {
  const told = findings.filter((f) => f.code === 'not-taken');
  if (told.length === 0) return [];
  return pointsAtFirst(state, batch).flatMap(({ key, parameter }) =>
    told.flatMap((f) => (f.what === parameter ? concernId('missing', f.subject, key) : [])),
  );
}

/** What tells at which point a deviation was found, and about what. */
export type AtPoint = Pick<Row<'deviation'>, 'type' | 'subject' | 'point'>;

/** The concerns of later loads that a deviation about a load tells of: that its reading was outside, or that it was not taken. */
export function firstLoadIds(state: State, d: AtPoint): string[] {
  const of = <C extends 'reading' | 'readingNotTaken'>(collection: C): string[] =>
    state.knows({ in: collection, by: 'subject', value: d.subject })
      ? state.find(collection, 'subject', d.subject).flatMap((r) => (r.point === d.point ? (r.pointKey ?? []) : []))
      : [];
  if (d.point === null) return [];
  if (d.type === 'not-taken') return [...new Set(of('readingNotTaken'))].map((key) => concernId('missing', d.subject, key));
  const outside = d.type === 'limit' || d.type === 'found-after-release';
  return outside ? [...new Set(of('reading'))].map((key) => concernId('outside', d.subject, key)) : [];
}
