import type { DoubtView } from '@bakehouse/contracts';
import { inOrder } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { doubtOn } from '../lookup/doubt.js';
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
> & {
  /** Why it cannot be trusted, whatever it said; null where it can. */
  readonly doubt: DoubtView | null;
};

/** The readings about one subject, in order of time. */
export function readingsOf(lookup: Lookup, subject: string): ReadingView[] {
  return inOrder(lookup.state.find('reading', 'subject', subject)).map((reading) => {
    const { id, point, pointKey, parameter, measured, figure, unit, yes, verdict, class: cls, judgedBy, at, doneBy, corrected } = reading;
    return {
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
      doubt: doubtOn(lookup, reading),
    };
  });
}
