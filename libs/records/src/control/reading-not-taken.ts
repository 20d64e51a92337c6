import { decided, derivedId, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { subjectKnown, subjectNeed } from './subjects.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';
import { notTakenAnswer, subjectType } from '../rows/control.js';
import type { PointContent } from '../rows/plan-content.js';
import { pointClass } from '../rows/point-fields.js';

/** Once a day or so: somebody may have done it already, so "not needed" is an answer. Each make, load, delivery and batch needs its own. */
const shared: readonly PointContent['frequency'][] = ['first-load-of-day', 'each-day', 'twice-a-day'];

/**
 * No value was taken: not done, not needed today, or nobody knows. Three different answers, one tap each. Where it is a *must* and the plan says that a
 * miss holds, it opens a deviation; a reading of that point within its limit, taken since, answers it.
 */
export const readingNotTaken = defineKind({
  name: 'reading-not-taken',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  withholdable: true,
  permission: 'record',
  phrase: 'A reading was not taken',
  official: 'Monitoring not done',
  words: ['note'],
  payload: z.strictObject({ subjectType, subject: id, point: id, answer: notTakenAnswer }),
  outcome: z.strictObject({ pointKey: z.string(), parameter: z.string(), class: pointClass, missed: z.boolean() }),
  examples: [
    {
      subjectType: 'load',
      subject: '0190a6d0-7b3c-7000-8000-0000000000f1',
      point: '0190a6d0-7b3c-7000-8000-0000000000f2',
      answer: 'not-done',
    },
  ],
  needs: (p) => [subjectNeed(p.subjectType, p.subject), { in: 'controlPoint', id: p.point }],
  decide({ payload: p }, state) {
    if (!subjectKnown(state, p.subjectType, p.subject)) return refuse('unknown-subject', 'payload.subject');
    const content = state.get('controlPoint', p.point)?.content;
    if (!content) return refuse('unknown-point', 'payload.point');
    const excused = p.answer === 'not-needed' && shared.includes(content.frequency);
    return decided({
      pointKey: content.key,
      parameter: content.parameter,
      class: content.class,
      missed: content.class === 'ccp' && content.ifNotMonitored === 'hold' && !excused,
    });
  },
  rows: ({ payload: p, root, at, doneBy }, o, stamp): Change[] => [
    {
      in: 'readingNotTaken',
      id: root,
      row: { subjectType: p.subjectType, subject: p.subject, point: p.point, pointKey: o.pointKey, answer: p.answer, at },
    },
    ...(o.missed
      ? [
          {
            in: 'deviation' as const,
            id: derivedId(root, 'deviation'),
            row: {
              subjectType: p.subjectType,
              subject: p.subject,
              type: 'not-taken' as const,
              class: o.class,
              summary: o.parameter,
              holds: true,
              point: p.point,
              lot: null,
              doneBy: doneBy ?? stamp.person,
              at,
            },
          },
        ]
      : []),
  ],
});
