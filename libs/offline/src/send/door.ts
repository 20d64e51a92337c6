import type { WireProblem } from '@bakehouse/api-client';
import * as z from 'zod';

/** The answer to one entry, read leniently: a newer service may know problems that this device does not. */
export const answer = z.discriminatedUnion('as', [
  z.object({
    as: z.enum(['recorded', 'already-recorded']),
    id: z.string(),
    receipt: z.object({ book: z.string(), seq: z.int(), recordedAt: z.string() }),
    outcome: z.unknown(),
  }),
  z.object({ as: z.literal('waiting'), id: z.string(), waitingFor: z.array(z.string()) }),
  z.object({
    as: z.literal('refused'),
    id: z.string().nullable(),
    problem: z.string(),
    title: z.string(),
    detail: z.string(),
    field: z.string().optional(),
    acceptable: z.string().optional(),
  }),
]);
export type Answer = z.infer<typeof answer>;

export type DoorReply =
  /** One answer an entry, in the order they were sent. */
  | { readonly as: 'answered'; readonly answers: readonly Answer[] }
  /** No network, no service, or no sensible answer: the same again later. */
  | { readonly as: 'unreachable'; readonly afterMs?: number | undefined }
  /** The person who typed this is not signed on. */
  | { readonly as: 'not-signed-on' }
  /** The request as a whole was refused. */
  | { readonly as: 'refused'; readonly problem: WireProblem };

/** The write door as the device sees it. */
export interface Door {
  send(
    to: { readonly book: string; readonly bookType: 'site' | 'organisation'; readonly typedBy: string },
    entries: readonly unknown[],
  ): Promise<DoorReply>;
}
