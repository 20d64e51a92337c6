import { canonicalInteger, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import { covers } from './control.js';

export const contactAnswer = z.enum(['told', 'not-reached', 'message-left']);
/** The hazard decides the scope: only an even chemical with an action level may have a cut-off. */
export const hazard = z.enum(['physical', 'microbiological', 'allergen', 'chemical']);
export type Hazard = z.infer<typeof hazard>;
export const recallCase = collection(
  'recall_case',
  z.object({
    suspect: z.array(id),
    hazard,
    hazardName: z.string(),
    practice: z.boolean(),
    supplierSaid: z.string().nullable(),
    /** Books and their sizes at which the scope was frozen, and SHA-256 of its canonical form. */
    frozenAt: z.array(z.strictObject({ book: id, size: z.int() })),
    scopeHash: z.string(),
    at: instant,
  }),
  { by: [], visibleTo: 'organisation' },
);
/** So many lots the records of one case may name: what a large house makes in a season. */
export const maxLots = 200_000;
export const recallScopeLot = collection(
  'recall_scope_lot',
  z.object({
    recall: id,
    lot: id,
    certain: z.boolean(),
    minPpt: z.int().nullable(),
    maxPpt: z.int().nullable(),
    /** A suspect, or reached by what it touched: the case holds it and what comes of it. What came with the food is found by following. */
    begins: z.boolean(),
  }),
  { by: ['recall', 'lot'], visibleTo: 'organisation' },
);
export const recallLotDecision = z.enum(['freed', 'destroyed', 'returned-to-supplier', 'feed']);
/** What a case holds is freed or done away with in that case alone, lot by lot, signed. */
export const recallDecision = collection(
  'recall_decision',
  z.object({
    recall: id,
    lot: id,
    decision: recallLotDecision,
    covers,
    pieces: z.int().nullable(),
    mg: canonicalInteger.nullable(),
    at: instant,
  }),
  { by: ['recall', 'lot'], visibleTo: 'organisation' },
);
/** A call made: told, not reached, will ring back; and what the other side still has. */
export const recallContact = collection(
  'recall_contact',
  z.object({
    recall: id,
    party: id,
    answer: contactAnswer,
    piecesHeld: z.int().nullable(),
    at: instant,
    doneBy: id.nullable(),
  }),
  { by: ['recall', 'party'], visibleTo: 'organisation' },
);
/** Outside the house: the food-safety authority was told, or a notice to the public was put up. */
export const notifiedTo = z.enum(['authority', 'public']);
export type NotifiedTo = z.infer<typeof notifiedTo>;
export const notifiedHow = z.enum([
  'telephone',
  'e-mail',
  'in-writing',
  'in-person',
  'notice-at-shop',
  'website',
  'social-media',
  'press',
  'other',
]);
/** That the authority was told of a case, or the public. Whom they spoke to, the authority's reference and what was said are words. */
export const recallNotified = collection(
  'recall_notified',
  z.object({ recall: id, to: notifiedTo, how: notifiedHow, at: instant, doneBy: id.nullable() }),
  { by: ['recall'], visibleTo: 'organisation' },
);
export const recallClosed = collection(
  'recall_closed',
  z.object({
    recall: id,
    /** What nobody had decided about: it stays on hold, for the reason that was given. */
    staysOnHold: z.array(id),
    why: z.string().nullable(),
    /** Who was not recorded as told, which customers no call told, and why; null where nobody was asked: in a practice, and before this was asked. */
    notTold: z.array(notifiedTo).nullable(),
    whyAuthorityNotTold: z.string().nullable(),
    whyNoNotice: z.string().nullable(),
    notReached: z.array(id).nullable(),
    whyNotReached: z.string().nullable(),
    closedBy: id.nullable(),
    at: instant,
  }),
  {
    by: ['recall'],
    visibleTo: 'organisation',
  },
);

export const recallsRows = { recallCase, recallScopeLot, recallDecision, recallContact, recallClosed, recallNotified } as const;
