import { derivedId } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';

type Reading = Row<'reading'>;

/** The readings that opened a deviation: one, as it stands, or none where it was withdrawn. */
export const openedBy = (readings: readonly Reading[], deviation: string): Reading[] =>
  readings.filter((r) => derivedId(r.id, 'deviation') === deviation);

/** Readings as they were looked at: what they said, and of what. Null where there is none. */
export const seenText = (readings: readonly Reading[]): string | null =>
  readings.length === 0 ? null : readings.map(textOf).sort().join('; ');

const textOf = ({ pointKey, parameter, figure, unit, yes, seconds }: Reading): string =>
  [
    pointKey ?? parameter,
    figure === null ? (yes === true ? 'yes' : 'no') : `${figure} ${unit ?? ''}`,
    ...(seconds === null ? [] : [`${seconds} s`]),
  ].join(' ');

/** Whether a decision that was signed on what was read covers what stands there now: the same, or readings that are all within, which is less than was accepted. */
export const coversNow = (saw: string, now: readonly Reading[]): boolean =>
  seenText(now) === saw || (now.length > 0 && now.every((r) => r.verdict === 'within'));

/** Whether a disposition still covers the reading that opened its deviation. */
export function restsStill({ deviation, saw }: Pick<Row<'disposition'>, 'deviation' | 'saw'>, readings: readonly Reading[]): boolean {
  const seen = saw.find((s) => s.concern === deviation);
  return seen === undefined || coversNow(seen.saw, openedBy(readings, deviation));
}
