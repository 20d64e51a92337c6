import { canConvert, canonicalInteger, canonicalOf, derivedId, refuse, type Outcome } from '@bakehouse/kernel';
import * as z from 'zod';
import { requiredUnit, verdictOf, verdictRule, type Observation } from './verdict.js';
import type { Change, Need, State } from '../base/state.js';
import { namesFood, verdict, type SubjectType } from '../rows/control.js';
import { limit, measured, pointClass } from '../rows/point-fields.js';

/** A verdict with everything that it used: kept in the outcome, so that rows need nothing else and a correction is judged by the same. */
export const judged = z.strictObject({
  milli: canonicalInteger.nullable(),
  verdict,
  class: pointClass.nullable(),
  pointKey: z.string().nullable(),
  asked: z.strictObject({ limit, measured, holdSeconds: z.string().nullable() }).nullable(),
  halfWidthMilli: canonicalInteger,
  rule: z.int(),
  deviation: z.enum(['none', 'opened', 'stays']),
  type: z.enum(['limit', 'found-after-release']),
  holds: z.boolean(),
});
export type Judged = z.infer<typeof judged>;

export interface Taken extends Observation {
  readonly subjectType: SubjectType;
  readonly subject: string;
  readonly point: string | null;
  readonly parameter: string;
  readonly instrument: string | null;
}

/** What has to be loaded before a reading about something can be judged. */
export const judgeNeeds = (t: { subject: string; point: string | null; instrument: string | null }): Need[] => [
  { in: 'releasedSubject', by: 'subject', value: t.subject },
  ...(t.point === null ? [] : [{ in: 'controlPoint', id: t.point } satisfies Need]),
  ...(t.instrument === null ? [] : [{ in: 'instrument', id: t.instrument } satisfies Need]),
];

/**
 * Judges what was observed. A correction of a reading at the same point is judged by the limit that the original was judged by, and with the
 * same instrument by its half-width then. A deviation that was opened stays; one that is new when something of it has been released is "found after release".
 */
export function judgeTaken(t: Taken, state: State, before: { taken: Taken; judged: Judged } | undefined, field: string): Outcome<Judged> {
  const point = t.point === null ? undefined : state.get('controlPoint', t.point);
  if (t.point !== null && !point) return refuse('unknown-point', `${field}.point`);
  const instrument = t.instrument === null ? undefined : state.get('instrument', t.instrument);
  if (t.instrument !== null && !instrument) return refuse('unknown-instrument', `${field}.instrument`);

  const same = before?.taken.point === t.point ? before?.judged : undefined;
  const asked = same
    ? same.asked
    : point
      ? { limit: point.content.limit, measured: point.content.measured, holdSeconds: point.content.holdSeconds }
      : null;
  const unit = asked ? requiredUnit(asked.limit) : undefined;
  if (unit === null && t.yes === null) return refuse('unacceptable-value', `${field}.yes`, 'yes or no, as the control point requires');
  const fits = !unit || (t.value !== null && canConvert(t.value.unit, unit));
  if (!fits) return refuse('unacceptable-value', `${field}.value.unit`, `a value in a unit that converts to ${unit}`);
  const milli = t.value ? canonicalOf(t.value) : null;
  if (milli === undefined) return refuse('unacceptable-value', `${field}.value`, 'a value that an instrument can show');

  const halfWidthMilli = before?.taken.instrument === t.instrument ? before.judged.halfWidthMilli : (instrument?.halfWidthMilli ?? 0);
  const found = verdictOf(t, asked, halfWidthMilli);
  const had = before !== undefined && before.judged.deviation !== 'none' ? before.judged : undefined;
  const cls = same ? same.class : (point?.content.class ?? had?.class ?? null);
  const opens = found === 'outside' && cls !== null;
  const released = state.find('releasedSubject', 'subject', t.subject).length > 0;
  return {
    ok: true,
    value: {
      milli,
      verdict: found,
      class: cls,
      pointKey: same ? same.pointKey : (point?.content.key ?? null),
      asked,
      halfWidthMilli,
      rule: verdictRule,
      deviation: had ? 'stays' : opens ? 'opened' : 'none',
      type: had ? had.type : released ? 'found-after-release' : 'limit',
      holds: had ? had.holds : opens && point?.content.ifOutside === 'hold' && namesFood(t.subjectType),
    },
  };
}

/** The row of a reading, and of the deviation that it opened. */
export function readingRows(readingId: string, t: Taken, j: Judged, of: { at: string; doneBy: string; corrected: boolean }): Change[] {
  const { at, doneBy, corrected } = of;
  const reading: Change = {
    in: 'reading',
    id: readingId,
    row: {
      subjectType: t.subjectType,
      subject: t.subject,
      point: t.point,
      pointKey: j.pointKey,
      measured: t.measured,
      parameter: t.parameter,
      figure: t.value?.figure ?? null,
      unit: t.value?.unit ?? null,
      milli: j.milli,
      yes: t.yes,
      seconds: t.seconds ?? null,
      verdict: j.verdict,
      class: j.class,
      judgedBy: j.asked?.limit ?? null,
      instrument: t.instrument,
      halfWidthMilli: j.halfWidthMilli,
      rule: j.rule,
      at,
      doneBy,
      corrected,
    },
  };
  return j.deviation === 'none'
    ? [reading]
    : [
        reading,
        {
          in: 'deviation',
          id: derivedId(readingId, 'deviation'),
          row: {
            subjectType: t.subjectType,
            subject: t.subject,
            type: j.type,
            class: j.class ?? 'process-check',
            summary: t.parameter,
            holds: j.holds && namesFood(t.subjectType),
            point: t.point,
            lot: null,
            doneBy,
            at,
          },
        },
      ];
}
