import { countText, decided, id, missingWord, refuse, upcaster, type Entry, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import { notReachedBy, notToldOf } from './informed.js';
import { closedAlready, whatStays } from './what-stays.js';
import { maxLots, notifiedTo } from '../rows/recalls.js';
import { defineKind } from '../base/kind.js';
import type { State } from '../base/state.js';
import { downstreamOf, heldBy, heldNeeds } from '../standing/held-by.js';

const closing = { recall: id };
const stating = { ...closing, staysOnHold: z.array(id).max(maxLots) };
const stated = { staysOnHold: z.array(id) };
const outcome = z.strictObject({
  ...stated,
  /** Who was not recorded as told, and which customers no call told; null where nobody was asked: in a practice, and before this was asked. */
  notTold: z.array(notifiedTo).nullable(),
  notReached: z.array(id).nullable(),
});

/**
 * A case is closed, signed. To close it frees nothing: what it holds and nobody has decided about stays on hold, and is stated lot by lot, with the reason.
 * Each of these is decided on in the case afterwards. A real case that is closed with the authority or the public not told, or customers not reached, says why.
 */
export const recallClosed = defineKind({
  name: 'recall-closed',
  version: 3,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I close this case; what was found and done is recorded, what stays on hold is stated, and who was not told or reached',
  permission: 'decide.recall',
  phrase: 'A recall case was closed',
  official: 'Recall case closed',
  words: ['conclusion', 'why', 'whyAuthorityNotTold', 'whyNoNotice', 'whyNotReached'],
  payload: z.strictObject({ ...stating, notReached: z.array(id).max(maxLots) }),
  upcast: {
    1: upcaster(z.strictObject(closing), (same) => ({ ...same, staysOnHold: [] })),
    2: upcaster(z.strictObject(stating), (same) => ({ ...same, notReached: [] })),
  },
  outcome,
  outcomeVersion: 3,
  upcastOutcome: {
    1: upcaster(z.strictObject({}), () => ({ staysOnHold: [] })),
    2: upcaster(z.strictObject(stated), (same) => ({ ...same, notTold: null, notReached: null })),
  },
  examples: [{ recall: '0190a6d0-7b3c-7000-8000-000000000101', staysOnHold: ['0190a6d0-7b3c-7000-8000-0000000000b1'], notReached: [] }],
  needs: (p) => [
    { in: 'recallCase', id: p.recall },
    { in: 'recallClosed', by: 'recall', value: p.recall },
    { in: 'recallScopeLot', by: 'recall', value: p.recall },
    { in: 'recallContact', by: 'recall', value: p.recall },
    { in: 'recallNotified', by: 'recall', value: p.recall },
  ],
  then: (p, state) => [
    ...state
      .find('recallClosed', 'recall', p.recall)
      .flatMap((c) => (c.closedBy === null ? [] : [{ in: 'person' as const, id: c.closedBy }])),
    ...heldNeeds(state, begins(state, p.recall)),
  ],
  decide(entry, state, { stamp, previous }) {
    const { payload: p, root } = entry;
    const of = state.get('recallCase', p.recall);
    if (!of) return refuse('unknown-recall', 'payload.recall');
    const [closed] = state.find('recallClosed', 'recall', p.recall).filter((c) => c.id !== root);
    if (closed) return closedAlready(state, 'payload.recall', closed, stamp.zone);
    const food = begins(state, p.recall);
    const stays = whatStays(heldBy(state, [p.recall], food), downstreamOf(state, food), p.staysOnHold, previous?.payload.staysOnHold);
    if (!stays.ok) return stays;
    const why = stays.lots.length > 0 ? missingWord(entry, 'why', 'why they stay on hold') : null;
    if (why) return why;
    // What a correction says of the same case is about the time when it was closed.
    const left = previous?.payload.recall === p.recall ? previous.outcome : of.practice ? nobodyAsked : leftOpen(state, p.recall, food);
    return (
      unstated(left.notReached ?? [], p.notReached) ??
      reasonMissing(entry, left) ??
      decided({ staysOnHold: stays.lots, notTold: left.notTold, notReached: left.notReached })
    );
  },
  rows: ({ payload: p, root, at, word }, o, stamp) => [
    {
      in: 'recallClosed',
      id: root,
      row: {
        ...{ recall: p.recall, ...o, at, closedBy: stamp.signature?.person ?? stamp.person, why: word('why') },
        ...{ whyAuthorityNotTold: word('whyAuthorityNotTold'), whyNoNotice: word('whyNoNotice'), whyNotReached: word('whyNotReached') },
      },
    },
  ],
});

type Left = Pick<z.output<typeof outcome>, 'notTold' | 'notReached'>;
const nobodyAsked: Left = { notTold: null, notReached: null };

const leftOpen = (state: State, recall: string, food: readonly string[]): Left => ({
  notTold: notToldOf(state.find('recallNotified', 'recall', recall)),
  notReached: notReachedBy(state, state.find('recallContact', 'recall', recall), food),
});

/** Nobody closes over a customer whom they did not know of, nor signs that somebody was not reached who was told. */
function unstated(notReached: readonly string[], said: readonly string[]): Refused | undefined {
  const [known, open] = [new Set(said), new Set(notReached)];
  if (!notReached.every((customer) => known.has(customer)))
    return refuse(
      'customers-not-reached',
      'payload.notReached',
      `the ${countText(notReached.length, 'customer')} whom no call has reached`,
    );
  const told = [...known].filter((customer) => !open.has(customer)).length;
  return told === 0
    ? undefined
    : refuse(
        'unacceptable-value',
        'payload.notReached',
        `only customers whom no call has reached: load the case again and leave out the ${countText(told, 'customer')} told since, or whom nothing went to`,
      );
}

const reasonMissing = (entry: Pick<Entry<unknown>, 'word'>, { notTold, notReached }: Left): Refused | undefined =>
  (notTold?.includes('authority') ? missingWord(entry, 'whyAuthorityNotTold', 'why the authority is not recorded as told') : undefined) ??
  (notTold?.includes('public') ? missingWord(entry, 'whyNoNotice', 'why no notice to the public is recorded') : undefined) ??
  (notReached?.length ? missingWord(entry, 'whyNotReached', 'why these customers were not reached') : undefined);

const begins = (state: State, recall: string): string[] =>
  state
    .find('recallScopeLot', 'recall', recall)
    .filter((s) => s.begins)
    .map((s) => s.lot);
