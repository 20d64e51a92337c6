import * as z from 'zod';
import { canonicalInteger, id, observed } from '../kernel/fields.js';
import { decided, defineKind } from '../kernel/kind.js';
import { derivedId } from '../kernel/derived-id.js';
import { refuse } from '../kernel/problems.js';
import type { Change, Need } from '../kernel/state.js';
import { canonical, dimensionOf } from '../kernel/units.js';
import { limit, measured, pointClass } from '../plans/content.js';
import { subjectSort, verdict } from './collections.js';
import { subjectNeed, subjectKnown } from './subjects.js';
import { verdictOf, verdictRule } from './verdict.js';

/**
 * A value as observed, judged at once against the point that it was taken for. A correction is judged with the limit and the instrument
 * of what it replaces. A deviation that was opened stays, whatever the corrected value says: only a decision closes it.
 */
export const readingTaken = defineKind({
  name: 'reading-taken', version: 1, book: 'site', sort: 'fact', offline: true, signed: null, permission: 'record',
  phrase: 'A reading was taken', words: ['note'],
  payload: z.strictObject({
    subjectSort, subject: id, point: id.nullable(), measured, parameter: z.string().max(80), instrument: id.nullable(),
    value: observed.nullable(), yes: z.boolean().nullable(), seconds: z.int().nonnegative().nullable(),
  }).refine((p) => (p.value === null) !== (p.yes === null), { message: 'a value, or yes or no: one of the two', path: ['value'] }),
  outcome: z.strictObject({
    milli: canonicalInteger.nullable(), verdict, class: pointClass.nullable(), pointKey: z.string().nullable(), limit: limit.nullable(),
    halfWidthMilli: canonicalInteger, rule: z.int(), deviation: z.enum(['none', 'opened', 'stays']), holds: z.boolean(),
  }),
  examples: [{
    subjectSort: 'load', subject: '0190a6d0-7b3c-7000-8000-0000000000f1', point: '0190a6d0-7b3c-7000-8000-0000000000f2', measured: 'core', parameter: 'core temperature',
    instrument: null, value: { figure: '94.4', unit: 'degC' }, yes: null, seconds: null,
  }],
  needs: (p) => [
    subjectNeed(p.subjectSort, p.subject),
    ...(p.point === null ? [] : [{ in: 'controlPoint', id: p.point } satisfies Need]),
    ...(p.instrument === null ? [] : [{ in: 'instrument', id: p.instrument } satisfies Need]),
  ],
  decide({ payload: p }, state, { previous }) {
    if (!subjectKnown(state, p.subjectSort, p.subject)) return refuse('unknown-subject', 'payload.subject');
    const point = p.point === null ? undefined : state.get('controlPoint', p.point);
    if (p.point !== null && !point) return refuse('unknown-point', 'payload.point');
    const instrument = p.instrument === null ? undefined : state.get('instrument', p.instrument);
    if (p.instrument !== null && !instrument) return refuse('unknown-instrument', 'payload.instrument');
    const before = previous?.outcome;
    const limitUsed = before ? before.limit : point?.content.limit ?? null;
    if (p.value && limitUsed?.sort === 'range' && dimensionOf(p.value.unit) !== dimensionOf(limitUsed.unit)) {
      return refuse('unacceptable-value', 'payload.value.unit', `a unit that converts to ${limitUsed.unit}`);
    }
    const halfWidthMilli = before?.halfWidthMilli ?? instrument?.halfWidthMilli ?? 0;
    const found = verdictOf(p, limitUsed, halfWidthMilli);
    const cls = before ? before.class : point?.content.class ?? null;
    const opens = found === 'outside' && cls !== null;
    const had = before !== undefined && before.deviation !== 'none';
    return decided({
      milli: p.value ? canonical(p.value.figure, p.value.unit) : null, verdict: found, class: cls,
      pointKey: before ? before.pointKey : point?.content.key ?? null, limit: limitUsed, halfWidthMilli, rule: verdictRule,
      deviation: had ? 'stays' : opens ? 'opened' : 'none',
      holds: had ? before.holds : opens && (point?.content.onOutside ?? 'note') === 'hold',
    });
  },
  rows({ payload: p, root, at, doneBy, corrects }, o, stamp): Change[] {
    const reading: Change = { in: 'reading', id: root, row: {
      subjectSort: p.subjectSort, subject: p.subject, point: p.point, pointKey: o.pointKey, measured: p.measured, parameter: p.parameter,
      figure: p.value?.figure ?? null, unit: p.value?.unit ?? null, milli: o.milli, yes: p.yes, seconds: p.seconds,
      verdict: o.verdict, class: o.class, judgedBy: o.limit, instrument: p.instrument, halfWidthMilli: o.halfWidthMilli, rule: o.rule,
      at, doneBy: doneBy ?? stamp.person, corrected: corrects !== undefined,
    } };
    return o.deviation === 'none' ? [reading] : [reading, { in: 'deviation', id: derivedId(root, 'deviation'), row: {
      subjectSort: p.subjectSort, subject: p.subject, sort: 'limit', class: o.class ?? 'note', summary: p.parameter, holds: o.holds, at,
    } }];
  },
});
