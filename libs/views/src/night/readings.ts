import { inOrder } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

export type ReadingView = Pick<
  Row<'reading'>,
  | 'id'
  | 'point'
  | 'pointKey'
  | 'parameter'
  | 'measured'
  | 'figure'
  | 'unit'
  | 'yes'
  | 'verdict'
  | 'class'
  | 'judgedBy'
  | 'at'
  | 'doneBy'
  | 'corrected'
>;

/** The readings about one subject, in order of time. */
export function readingsOf({ state }: Lookup, subject: string): ReadingView[] {
  return inOrder(state.find('reading', 'subject', subject)).map(
    ({ id, point, pointKey, parameter, measured, figure, unit, yes, verdict, class: cls, judgedBy, at, doneBy, corrected }) => ({
      id,
      point,
      pointKey,
      parameter,
      measured,
      figure,
      unit,
      yes,
      verdict,
      class: cls,
      judgedBy,
      at,
      doneBy,
      corrected,
    }),
  );
}
