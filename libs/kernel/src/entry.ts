import * as z from 'zod';
import { entryId, id, instantWithOffset } from './fields.js';

/** How sure the time is. */
export const precision = z.enum(['exact', 'about', 'between']);
export type Precision = z.infer<typeof precision>;
/** The same as it turned out when it was recorded: unknown where the device's clock cannot have been right. */
export const certainty = z.enum([...precision.options, 'unknown']);
export type Certainty = z.infer<typeof certainty>;
/** When it happened: at an instant, about then, or between two instants. The offset is the one on the wall. */
export const when = z
  .strictObject({
    at: instantWithOffset,
    precision,
    until: instantWithOffset.optional(),
    /**
     * The clock that it was read from: this device's, whose error may be known, or one on the wall, as it is for what is typed or taken over from an
     * earlier record. Where it is not said, an exact time is the device's and any other was typed.
     */
    clock: z.enum(['device', 'wall']).optional(),
  })
  .refine((w) => (w.precision === 'between') === (w.until !== undefined), {
    message: '`until` goes with precision "between", and only with it',
    path: ['until'],
  })
  .refine((w) => w.until === undefined || Date.parse(w.until) >= Date.parse(w.at), {
    message: 'an instant at or after `at`',
    path: ['until'],
  });

/** Free text travels beside the payload with a random salt; only its salted commitment is inside the hashed bytes. */
export const word = z.strictObject({ text: z.string().max(4000), salt: z.string().regex(/^[0-9a-f]{32}$/, '16 random bytes in hex') });

/**
 * How many entries one may come after. A tablet names every entry that it still holds about the batches that are released or sent out: a large
 * night is some six hundred readings and steps, so this is three such nights without a network. A request's size bounds all of its entries
 * together, and the door looks all their ids up in one query.
 */
export const maxAfter = 2000;

/**
 * What a client sends about any entry, fixed when it is saved on the device and never changed on a later try.
 * `send` is evidence of this one sending (signature token, attempt) and is outside the input hash.
 */
export const envelope = z.strictObject({
  id: entryId,
  kind: z.string().max(60),
  version: z.int().positive(),
  after: z.array(entryId).max(maxAfter).optional(),
  occurredAt: when,
  doneBy: id.nullable(),
  device: z.strictObject({ id: id.nullable(), seq: z.int().nonnegative(), clockErrorMs: z.int().nullable() }),
  corrects: entryId.optional(),
  words: z.record(z.string().max(40), word).optional(),
  payload: z.unknown(),
  send: z.strictObject({ signature: z.string().max(200).optional(), attempt: z.int().positive().optional() }).optional(),
});
export type Envelope = z.infer<typeof envelope>;

/** The envelope as it is hashed: words replaced by their commitments, nothing of this one sending. */
export type Input = Omit<Envelope, 'words' | 'send'> & { words?: Record<string, string> };

export interface Signature {
  person: string;
  meaning: string;
  at: string;
}

/** What the server adds under the book's lock. Together with input and outcome it is the content of the hashed bytes. */
export interface Stamp {
  readonly recordedAt: string;
  readonly seq: number;
  readonly organisation: string;
  readonly book: string;
  readonly person: string;
  readonly zone: string;
  readonly signature?: Signature;
}

/** An entry as kinds see it. `root` names the chain: the entry's own id, or the id of the entry that it corrects. */
export interface Entry<P> {
  readonly id: string;
  readonly root: string;
  readonly version: number;
  readonly corrects: string | undefined;
  /** UTC instant, milliseconds, by true time (`happened`). */
  readonly at: string;
  readonly until: string | null;
  readonly precision: Certainty;
  readonly doneBy: string | null;
  readonly device: string | null;
  /** The text behind a word, or null where it was never given or has been withheld since. */
  word(key: string): string | null;
  readonly payload: P;
}
