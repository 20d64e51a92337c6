import type { Row, State } from '../base/state.js';
import { concernType } from '../rows/baking.js';
import { seenText } from '../control/seen-readings.js';
import { unsettledAt } from '../control/unsettled.js';
import { seenOf, stillSeen, type Found } from './seen.js';
import { concernsBehind } from './concerns-behind.js';

type AboutFood = Pick<Row<'deviation'>, 'id' | 'type' | 'subjectType' | 'subject' | 'lot' | 'point' | 'at'>;

/** A concern that a deviation tells of, as a finding: itself, or one that begins with the name of its type. */
function foundBy({ id, subject }: AboutFood, concern: string): Found | null {
  if (concern === id) return { code: 'open-deviation', subject, concern };
  const code = concernType.options.find((type) => concern.startsWith(`${type} `));
  return code === undefined ? null : { code, subject, concern };
}

/** What a failed check left in doubt about a lot: the readings by that instrument, whatever each was about. */
const doubtful = (state: State, check: string, subjects: readonly string[]): string | null =>
  seenText(
    subjects
      .filter((s) => state.knows({ in: 'reading', by: 'subject', value: s }))
      .flatMap((s) => unsettledAt(state, s))
      .flatMap((u) => (u.doubt?.id === check ? u.reading : [])),
  );

/** What somebody who decides about a deviation, or about one lot by it, has seen of the readings and dates behind it. `subjects`: what the lot is recorded under. */
export const seenBy = (state: State, d: AboutFood, subjects: readonly string[]): Row<'disposition'>['saw'] =>
  concernsBehind(state, d).flatMap((concern) => {
    const found = foundBy(d, concern);
    const saw = isCheck(d, concern) ? doubtful(state, concern, subjects) : found && seenOf(state, found);
    return saw === null ? [] : [{ concern, saw }];
  });

const isCheck = ({ id, subjectType }: AboutFood, concern: string): boolean => subjectType === 'instrument' && concern === id;

/** Whether a disposition still covers what stands behind a concern that it tells of: not where a reading or a date was corrected since, as of an exception. */
export function stillCovers(
  state: State,
  { saw: kept }: Pick<Row<'disposition'>, 'saw'>,
  d: AboutFood,
  concern: string,
  subjects: readonly string[],
): boolean {
  const saw = kept.find((s) => s.concern === concern)?.saw;
  if (saw === undefined) return true;
  if (isCheck(d, concern)) return doubtful(state, concern, subjects) === saw;
  const found = foundBy(d, concern);
  return found === null || stillSeen(state, { ...found, saw });
}
