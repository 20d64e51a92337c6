import { latest } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';

/**
 * Whether a deviation keeps food from leaving by rule. It does from when it was opened as holding until one of these is recorded:
 * - it was closed by decision;
 * - somebody who may decided, signed, that the whole of what it is about is used, as it is or after correction;
 * - a value was outside, something was done about it, and the last reading after both of the same point on the same subject is within;
 * - a reading was missed, and the last reading of that point on that subject is within.
 * The last two answer it without closing it: it stays on the list of the food-safety lead. A corrected reading never answers the deviation it opened.
 */
export function holdsRelease(
  deviation: Row<'deviation'>,
  actions: readonly Row<'correctiveAction'>[],
  readings: readonly Row<'reading'>[],
  dispositions: readonly Row<'disposition'>[],
  closures: readonly Row<'deviationClosed'>[],
): boolean {
  const mine = <T extends { readonly deviation: string }>(rows: readonly T[]): T[] => rows.filter((row) => row.deviation === deviation.id);
  if (!deviation.holds || mine(closures).length > 0) return false;
  const used = mine(dispositions).some(
    (d) => (d.disposition === 'accepted-for-use' || d.disposition === 'accepted-after-correction') && d.pieces === null && d.mg === null,
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
export const holdingNeeds = (subject: string): Need[] => [
  { in: 'deviation', by: 'subject', value: subject },
  { in: 'reading', by: 'subject', value: subject },
  { in: 'correctiveAction', by: 'subject', value: subject },
  { in: 'disposition', by: 'subject', value: subject },
  { in: 'deviationClosed', by: 'subject', value: subject },
];

/** The deviations about a subject that keep it from leaving by rule, as the records stand. */
export function holding(state: State, subject: string): Row<'deviation'>[] {
  const [actions, readings] = [state.find('correctiveAction', 'subject', subject), state.find('reading', 'subject', subject)];
  const [dispositions, closures] = [state.find('disposition', 'subject', subject), state.find('deviationClosed', 'subject', subject)];
  return state.find('deviation', 'subject', subject).filter((d) => holdsRelease(d, actions, readings, dispositions, closures));
}
