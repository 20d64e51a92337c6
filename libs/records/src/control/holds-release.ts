import { latest } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { restsStill } from './seen-readings.js';
import { countingNeeds, readingsThatCount } from './unsettled.js';

type Choice = Row<'disposition'>['disposition'];

/** The dispositions by which food is used, as it is or after correction. */
export const usingDispositions: readonly Choice[] = ['accepted-for-use', 'accepted-after-correction'];
export const letsUse = (disposition: Choice): boolean => usingDispositions.includes(disposition);

/** A decision that the whole of something is used. An amount says that it is about a part: the rest stays held. */
export const usesAll = (d: Pick<Row<'disposition'>, 'disposition' | 'pieces' | 'mg'>): boolean =>
  letsUse(d.disposition) && d.pieces === null && d.mg === null;

/**
 * Whether a deviation holds what it is about, and what comes of that. It does from when it was opened as holding until one of these is recorded:
 * - somebody who may decided, signed, that the whole of what it is about is used, and that this covers what came of it too, on the reading that stands;
 * - a value was outside, something was done about it, and the last reading after both of the same point on the same subject is within;
 * - a reading was missed, and the last reading of that point on that subject is within.
 * A reading by an instrument that cannot be trusted answers nothing: give the readings as they count (`readingsThatCount`).
 * To close it is none of these: a review says that it was dealt with, not that the food may be used. A corrected reading never answers the deviation
 * that it opened.
 */
export function holdsRelease(
  deviation: Row<'deviation'>,
  actions: readonly Row<'correctiveAction'>[],
  readings: readonly Row<'reading'>[],
  dispositions: readonly Row<'disposition'>[],
): boolean {
  const mine = <T extends { readonly deviation: string }>(rows: readonly T[]): T[] => rows.filter((row) => row.deviation === deviation.id);
  if (!deviation.holds) return false;
  const used = mine(dispositions).some(
    (d) => d.subject === deviation.subject && usesAll(d) && d.covers === 'what-came-of-it' && restsStill(d, readings),
  );
  return !used && !answered(deviation, mine(actions), readings);
}

function answered(deviation: Row<'deviation'>, actions: readonly Row<'correctiveAction'>[], readings: readonly Row<'reading'>[]): boolean {
  const same = readings.filter(
    (r) => deviation.point !== null && r.point === deviation.point && r.subject === deviation.subject && r.verdict !== 'not-believable',
  );
  switch (deviation.type) {
    case 'not-taken':
      return latest(same)?.verdict === 'within';
    case 'limit':
    case 'found-after-release': {
      const done = actions
        .filter((a) => a.type !== 'told-somebody' && a.at >= deviation.at)
        .map((a) => a.at)
        .sort()[0];
      return done !== undefined && latest(same.filter((r) => r.at > deviation.at && r.at >= done))?.verdict === 'within';
    }
    default:
      return false;
  }
}

/** What has to be loaded before `holding` can be asked about a subject. */
export const holdingNeeds = (state: State, subject: string): Need[] => [
  { in: 'deviation', by: 'subject', value: subject },
  ...countingNeeds(state, subject),
  { in: 'correctiveAction', by: 'subject', value: subject },
  { in: 'disposition', by: 'subject', value: subject },
  { in: 'deviationClosed', by: 'subject', value: subject },
];

/** The deviations about a subject that keep it from leaving by rule, as the records stand. */
export function holding(state: State, subject: string): Row<'deviation'>[] {
  const [actions, readings] = [state.find('correctiveAction', 'subject', subject), readingsThatCount(state, subject)];
  const dispositions = state.find('disposition', 'subject', subject);
  return state.find('deviation', 'subject', subject).filter((d) => holdsRelease(d, actions, readings, dispositions));
}
