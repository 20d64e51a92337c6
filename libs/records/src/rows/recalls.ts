import { collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

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
export const recallScopeLot = collection(
  'recall_scope_lot',
  z.object({ recall: id, lot: id, certain: z.boolean(), minPpt: z.int().nullable(), maxPpt: z.int().nullable() }),
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
export const recallClosed = collection('recall_closed', z.object({ recall: id, at: instant }), {
  by: ['recall'],
  visibleTo: 'organisation',
});

export const recallsRows = { recallCase, recallScopeLot, recallContact, recallClosed } as const;
