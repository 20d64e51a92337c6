import { decided, id, missingWord, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { closedAlready, whatStays } from './what-stays.js';
import { maxLots } from '../rows/recalls.js';
import { defineKind } from '../base/kind.js';
import type { Change, Row, State } from '../base/state.js';
import { foodNeeds, foodOf } from '../control/done-away.js';
import { holdingNeeds, holdsRelease } from '../control/holds-release.js';
import { readingsThatCount } from '../control/unsettled.js';
import { downstreamOf, heldBy, heldNeeds } from '../standing/held-by.js';
import { concernsBehind } from '../standing/concerns-behind.js';
import { concernsOf } from '../standing/standings.js';

const closing = { deviation: id };
const outcome = { subject: id, selfReview: z.boolean() };

/**
 * Somebody reviews a deviation and its corrective actions, and closes it. A deviation that holds is closed once it is answered, or
 * somebody has decided about food of it, or all that stays on hold undecided is stated, lot by lot, with the reason. Closing frees nothing. A person may close a deviation that they acted on themselves; the record says so.
 */
export const deviationClosed = defineKind({
  name: 'deviation-closed',
  version: 2,
  book: 'site',
  type: 'decision',
  offline: false,
  signed: 'I have reviewed this deviation and close it',
  permission: 'decide.exception',
  phrase: 'A deviation was closed',
  official: 'Deviation closed',
  words: ['review', 'why'],
  payload: z.strictObject({ ...closing, staysOnHold: z.array(id).max(maxLots) }),
  upcast: { 1: upcaster(z.strictObject(closing), (same) => ({ ...same, staysOnHold: [] })) },
  outcome: z.strictObject({ ...outcome, staysOnHold: z.array(id) }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject(outcome), (same) => ({ ...same, staysOnHold: [] })) },
  examples: [{ deviation: '0190a6d0-7b3c-7000-8000-0000000000f5', staysOnHold: [] }],
  needs: (p) => [
    { in: 'deviation', id: p.deviation },
    { in: 'deviationClosed', by: 'deviation', value: p.deviation },
  ],
  then(p, state) {
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return [];
    return [
      ...holdingNeeds(state, deviation.subject),
      { in: 'disposition', by: 'deviation', value: p.deviation },
      ...state.find('deviationClosed', 'deviation', p.deviation).map((c) => ({ in: 'person' as const, id: c.closedBy })),
      ...foodNeeds(state, deviation.subjectType, deviation.subject),
      ...(foodNeeds(state, deviation.subjectType, deviation.subject).every((need) => state.knows(need))
        ? heldNeeds(state, begins(state, deviation))
        : []),
    ];
  },
  decide(entry, state, { stamp, previous }) {
    const { payload: p, root, at } = entry;
    const deviation = state.get('deviation', p.deviation);
    if (!deviation) return refuse('unknown-deviation', 'payload.deviation');
    const { subject } = deviation;
    const [closed] = state.find('deviationClosed', 'deviation', p.deviation).filter((c) => c.id !== root);
    if (closed) return closedAlready(state, 'payload.deviation', closed, stamp.zone);
    const food = begins(state, deviation);
    const stays = whatStays(
      heldBy(state, concernsBehind(state, deviation), food, concernsOf(state, downstreamOf(state, food), null, at)),
      downstreamOf(state, food),
      p.staysOnHold,
      previous?.payload.staysOnHold,
    );
    if (!stays.ok) return stays;
    const actions = state.find('correctiveAction', 'subject', subject);
    const spoken = stays.lots.length > 0 || state.find('disposition', 'deviation', p.deviation).length > 0;
    if (!spoken && holdsRelease(deviation, actions, readingsThatCount(state, subject), []))
      return refuse('not-answered', 'payload.deviation');
    const closer = stamp.signature?.person ?? stamp.person;
    const doers = [deviation.doneBy, ...actions.filter((a) => a.deviation === p.deviation).map((a) => a.doneBy)];
    const why = stays.lots.length > 0 ? missingWord(entry, 'why', 'why they stay on hold') : null;
    return why ?? decided({ subject, selfReview: doers.includes(closer), staysOnHold: stays.lots });
  },
  rows: ({ payload: p, root, at, word }, o, stamp): Change[] => [
    {
      in: 'deviationClosed',
      id: root,
      row: {
        deviation: p.deviation,
        subject: o.subject,
        selfReview: o.selfReview,
        staysOnHold: o.staysOnHold,
        why: word('why'),
        at,
        closedBy: stamp.signature?.person ?? stamp.person,
      },
    },
  ],
});

const begins = (state: State, { subjectType, subject }: Row<'deviation'>): string[] =>
  foodOf(state, subjectType, subject).map((f) => f.lot.id);
