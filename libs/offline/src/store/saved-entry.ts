import type { WireProblem } from '@bakehouse/api-client';
import * as z from 'zod';

/** The fate of a saved entry, as far as this device knows. */
export const fate = z.discriminatedUnion('as', [
  z.object({ as: z.literal('to-send') }),
  /** The other side does not know these yet: it is tried again after them. */
  z.object({ as: z.literal('waiting'), waitingFor: z.array(z.string()) }),
  /** `shown`: a snapshot that holds it has come, so that it stays only for the list of recent entries. */
  z.object({ as: z.literal('recorded'), book: z.string(), seq: z.int(), recordedAt: z.string(), outcome: z.unknown(), shown: z.boolean() }),
  /** For a person to look at. `archived`: somebody did. It is kept all the same. */
  z.object({
    as: z.literal('refused'),
    problem: z.string(),
    title: z.string(),
    detail: z.string(),
    field: z.string().nullable(),
    acceptable: z.string().nullable(),
    archived: z.boolean(),
  }),
]);
export type Fate = z.infer<typeof fate>;

/** For a person to look at, with what to do. */
export const refusedFor = ({ problem, title, detail, field = undefined, acceptable = undefined }: WireProblem): Fate => ({
  as: 'refused',
  problem,
  title,
  detail,
  field: field ?? null,
  acceptable: acceptable ?? null,
  archived: false,
});

/** One entry as the device keeps it: the bytes that were fixed when it was saved, and beside them what may change. */
export const savedEntry = z.object({
  seq: z.int().nonnegative(),
  id: z.string(),
  book: z.string(),
  bookType: z.enum(['site', 'organisation']),
  /** Exactly what will be sent, on every try. */
  entry: z.record(z.string(), z.unknown()),
  typedBy: z.string(),
  savedAt: z.iso.datetime(),
  /** The one-use token of a signature; never the PIN. */
  signature: z.string().nullable(),
  attempts: z.int().nonnegative(),
  fate,
});
export type SavedEntry = z.infer<typeof savedEntry>;

/** Whether it is still to be sent. */
export const isPending = ({ fate: { as } }: SavedEntry): boolean => as === 'to-send' || as === 'waiting';
