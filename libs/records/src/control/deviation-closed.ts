import { decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { holdingNeeds, holdsRelease } from './holds-release.js';
import { readingsThatCount } from './unsettled.js';
import { defineKind } from '../base/kind.js';
import type { Change } from '../base/state.js';

/**
 * Somebody reviews a deviation and its corrective actions, and closes it. A deviation that holds food can be closed once it is answered or has a
 * disposition. Closing frees nothing by itself. A person may close a deviation that they acted on themselves; the record says so.
 */
export const deviationClosed = defineKind({
  name: 'deviation-closed',
  version: 1,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I have reviewed this deviation and close it',
  permission: 'decide.exception',
  phrase: 'A deviation was closed',
  official: 'Deviation closed',
  words: ['review'],
  payload: z.strictObject({ deviation: id }),
  outcome: z.strictObject({ subject: id, selfReview: z.boolean() }),
  examples: [{ deviation: '0190a6d0-7b3c-7000-8000-0000000000f5' }],
  needs: (p) => [{ in: 'deviation', id: p.deviation }],
  then(p, state) {
    const deviation = state.get('deviation', p.deviation);
    return deviation ? [...holdingNeeds(state, deviation.subject), { in: 'deviationClosed', by: 'deviation', value: p.deviation }] : [];
  },
  decide({ payload: p, root }, state, { stamp }) {
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    const { subject } = deviation;
    const closed = state.find('deviationClosed', 'deviation', p.deviation).some((c) => c.id !== root);
    if (closed) return refuse('already-closed', 'payload.deviation');
    const actions = state.find('correctiveAction', 'subject', subject);
    const decidedOn = state.find('disposition', 'subject', subject).some((d) => d.deviation === p.deviation);
    if (!decidedOn && holdsRelease(deviation, actions, readingsThatCount(state, subject), []))
      return refuse('not-answered', 'payload.deviation');
    const closer = stamp.signature?.person ?? stamp.person;
    const doers = [deviation.doneBy, ...actions.filter((a) => a.deviation === p.deviation).map((a) => a.doneBy)];
    return decided({ subject, selfReview: doers.includes(closer) });
  },
  rows: ({ payload: p, root, at }, o, stamp): Change[] => [
    {
      in: 'deviationClosed',
      id: root,
      row: {
        deviation: p.deviation,
        subject: o.subject,
        selfReview: o.selfReview,
        at,
        closedBy: stamp.signature?.person ?? stamp.person,
      },
    },
  ],
});
