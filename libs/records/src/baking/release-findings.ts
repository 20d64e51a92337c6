import type { Need, Row, State } from '../base/state.js';
import { loadsOfBatch } from '../control/loads-of.js';
import type { Finding } from '../rows/baking.js';
import { asFindings } from '../standing/as-findings.js';
import { notKnownNeeds, notKnownUpstream } from '../standing/not-known.js';
import { batchMustNeeds, mustNeeds, mustsAt, mustsUpstream } from '../standing/musts.js';
import { destroyedWhole, goneNeeds } from '../standing/surely-gone.js';
import { concernsOf, standingNeeds } from '../standing/standings.js';

/** Goes up when the rule changes; stored with each release. */
export const releaseRule = 4;

type Batch = Row<'batch'>;

/** What a release speaks for: the batch, its run, its make and its loads. */
export const subjectsOf = (b: Batch, state: State): string[] => [...new Set([b.id, b.run, b.make, ...loadsOfBatch(state, b)])];

/** What has to be looked for, once the batch is there, before `releaseFindings` can be asked: ask again until it names nothing new. */
export const releaseNeeds = (b: Batch, state: State): Need[] => [
  ...standingNeeds(state, [b.id]),
  ...goneNeeds(state, b.id),
  ...batchMustNeeds(state, b),
  ...mustNeeds(state, b.id),
  ...notKnownNeeds(state, b.id),
];

/**
 * What keeps a batch from leaving by rule, as the records stand; nothing means that it may go. In this order: no plan to go by; that all of it was destroyed; every concern that
 * reaches the batch, however far upstream it begins; a *must* of the batch, its loads or anything made or baked that went in whose reading is missing where the plan
 * says that a miss holds, or has only doubtful readings; a lot that went in and that nobody has named. A screen that has worked the concerns out for all its lots gives those of this one.
 */
export function releaseFindings(batch: Batch, state: State, reaching = concernsOf(state, [batch.id]).get(batch.id) ?? []): Finding[] {
  const concerns = asFindings(state, reaching);
  const known = new Set(concerns.map((f) => f.concern));
  const missing = [...mustsAt(state, batch.id), ...mustsUpstream(state, batch)].filter((f) => f.concern === null || !known.has(f.concern));
  return [
    ...(batch.plan === null
      ? [{ code: 'no-plan' as const, subject: batch.id, what: null, deviation: null, concern: null, saw: null }]
      : []),
    ...(destroyedWhole(state, batch.id)
      ? [{ code: 'destroyed' as const, subject: batch.id, what: null, deviation: null, concern: null, saw: null }]
      : []),
    ...concerns,
    ...missing,
    ...notKnownUpstream(state, batch.id),
  ];
}
