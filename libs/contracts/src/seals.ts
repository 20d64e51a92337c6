import * as z from 'zod';

/** A book's head as it was signed: how many records there were, and the one hash that stands for all of them. */
export const sealView = z
  .object({
    book: z.uuid(),
    name: z.string(),
    origin: z.string().meta({ description: 'whose seal it is, as the first line of the note says' }),
    size: z.int(),
    rootHex: z.string(),
    code: z.string().meta({ description: 'the start of the root, short enough to write on paper; it finds a seal, it does not prove one' }),
    at: z.iso.datetime(),
    line: z.string().meta({ description: 'one line, for paper' }),
    note: z.string().meta({ description: 'a checkpoint of c2sp.org/tlog-checkpoint in a note of c2sp.org/signed-note' }),
    verifierKey: z.string(),
    says: z.array(z.string()).meta({ description: 'what it shows, how to check it, and what it does not show' }),
  })
  .meta({ id: 'Seal' });
export type SealView = z.infer<typeof sealView>;

export const sealKey = z
  .object({
    book: z.uuid(),
    origin: z.string(),
    verifierKey: z.string(),
    says: z.array(z.string()),
  })
  .meta({ id: 'SealKey' });
export type SealKeyView = z.infer<typeof sealKey>;

/** The heads of a site's book and of the organisation's as they stand, signed; a tablet remembers the last it saw and takes none that does not go on from there. */
export const signedHeads = z
  .object({
    heads: z.array(
      z.object({
        book: z.uuid(),
        name: z.string(),
        size: z.int(),
        note: z.string().meta({ description: 'a checkpoint of c2sp.org/tlog-checkpoint in a note of c2sp.org/signed-note' }),
        verifierKey: z.string(),
        keys: z.array(z.string()).meta({ description: 'statements that lead from the book’s first key to this one, the oldest first' }),
        proofHex: z
          .array(z.string())
          .nullable()
          .meta({ description: 'the proof of RFC 9162 §2.1.4 from the size that was named; null where the book has fewer entries' }),
      }),
    ),
  })
  .meta({ id: 'SignedHeads' });
export type SignedHeads = z.infer<typeof signedHeads>;

const headText = z.string().min(1).max(4000);
/** What a tablet reports of records that do not go on from what it saw: both heads as they were signed. */
export const headsDiffer = z
  .strictObject({
    book: z.uuid().toLowerCase(),
    why: z.enum(['shorter', 'forked', 'another-key', 'not-signed', 'not-proven']),
    seen: z.strictObject({ note: headText, verifierKey: headText, at: z.iso.datetime() }),
    now: z.strictObject({ note: headText, verifierKey: headText }),
  })
  .meta({ id: 'HeadsDiffer' });
export type HeadsDiffer = z.infer<typeof headsDiffer>;

const word = z.object({ field: z.string(), salt: z.string(), text: z.string() });
const entry = z.object({
  seq: z.int(),
  bytesBase64: z.string().optional(),
  withheldLeafHex: z.string().optional(),
  proofHex: z.array(z.string()).optional(),
  words: z.array(word).optional(),
});
const cosignatures = z
  .array(z.string())
  .optional()
  .meta({ description: 'what witnesses signed of the seal, a line each (c2sp.org/tlog-cosignature)' });
const earlierSeal = z.object({ checkpoint: z.string(), cosignatures, proofHex: z.array(z.string()).optional() });
const bookInBundle = z.object({
  name: z.string(),
  checkpoint: z.string(),
  cosignatures,
  verifierKey: z.string(),
  keys: z.array(z.string()).optional().meta({ description: 'statements that lead from the first key to this one, the oldest first' }),
  first: z.int(),
  count: z.int(),
  entries: z.array(entry),
  earlier: z.array(earlierSeal),
});
export type BookInBundle = z.infer<typeof bookInBundle>;
/**
 * The records of a period, each with the proof of its place under the seal, as libs/ledger/FORMAT.md describes it; `from`, `until` and `says` are
 * for people. Checked with /verify.html from disk, without this service.
 */
export const sealBundle = z
  .object({
    format: z.enum(['ledger-bundle/1', 'ledger-bundle/2']),
    books: z.array(bookInBundle),
    from: z.iso.datetime(),
    until: z.iso.datetime(),
    says: z.array(z.string()),
  })
  .meta({ id: 'SealBundle' });
export type SealBundle = z.infer<typeof sealBundle>;
