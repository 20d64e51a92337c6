import type { Need, Row, State } from '../base/state.js';
import { loadsOfBatch } from '../control/loads-of.js';
import { answerOf, firstOfDay } from '../control/points-required.js';
import { countingNeeds, readingsThatCount } from '../control/unsettled.js';
import type { Finding } from '../rows/baking.js';
import type { PointContent } from '../rows/plan-content.js';

type Batch = Row<'batch'>;
type Line = Row<'loadLine'>;

const dayOf = (day: string): Need => ({ in: 'loadLine', by: 'bakeDay', value: day });

/** The lines by which a batch's product went into the ovens that it was baked in. Each load's day is its own: what is baked after midnight may count for the day before. */
const ownLines = (state: State, batch: Batch): Line[] =>
  loadsOfBatch(state, batch)
    .flatMap((load) => state.find('loadLine', 'load', load))
    .filter((line) => line.product === batch.product);

/** The first load of the day of this product in the oven of one of its lines. */
const firstOf = (state: State, own: Line): string => firstOfDay(own, state.find('loadLine', 'bakeDay', own.bakeDay));

/** What has to be looked for, once the loads of the batch are there, before `firstLoadFindings` can be asked: ask again until it names nothing new. */
export function firstLoadNeeds(state: State, batch: Batch): Need[] {
  const lines = loadsOfBatch(state, batch).every((load) => state.knows({ in: 'loadLine', by: 'load', value: load }))
    ? ownLines(state, batch)
    : [];
  const days = lines.map((line) => dayOf(line.bakeDay));
  if (!days.every((need) => state.knows(need))) return days;
  return [
    ...days,
    ...lines.flatMap((line) => {
      const first = firstOf(state, line);
      return [...countingNeeds(state, first), { in: 'readingNotTaken', by: 'subject', value: first } satisfies Need];
    }),
  ];
}

/**
 * What a point that is read at the first load of the day says of a batch that was baked later that day: the core of the first load speaks for it, unless its
 * own was read and within. What is missing, in doubt or outside there keeps this batch too, though what was recorded about that load is about other food.
 */
export function firstLoadFindings(point: PointContent, batch: Batch, state: State): Finding[] {
  const loads = loadsOfBatch(state, batch);
  const answer = (load: string) => answerOf(point.key, load, readingsThatCount(state, load));
  const firsts = new Set(ownLines(state, batch).flatMap((line) => (answer(line.load) === 'within' ? [] : [firstOf(state, line)])));
  return [...firsts]
    .filter((load) => !loads.includes(load))
    .flatMap((load): Finding[] => {
      const finding = { subject: load, what: point.parameter, deviation: null, concern: null };
      switch (answer(load)) {
        case 'within':
          return [];
        case 'outside':
          return [{ code: 'first-load-outside', ...finding }];
        case 'unsettled':
          return point.ifNotMonitored === 'hold' || point.ifOutside === 'hold' ? [{ code: 'unsettled', ...finding }] : [];
        case 'missing': {
          const told = state.find('readingNotTaken', 'subject', load).filter((n) => n.pointKey === point.key);
          const needed = point.ifNotMonitored === 'hold' && !told.some((n) => n.answer === 'not-needed');
          return needed ? [{ code: 'not-taken', ...finding }] : [];
        }
      }
    });
}
