import {
  followKeys,
  fromHex,
  openNote,
  openSeal,
  readCheckpoint,
  readVerifierKey,
  verifyConsistency,
  vouches,
  type Checkpoint,
} from '@bakehouse/ledger';
import * as z from 'zod';

/** A book's head as the service signs it, with the proof that it goes on from the size that the device named. */
export const signedHead = z.object({
  book: z.string(),
  name: z.string(),
  /** A checkpoint in a signed note. */
  note: z.string(),
  verifierKey: z.string(),
  /** Statements that lead from the book's first key to this one, the oldest first. */
  keys: z.array(z.string()),
  /** Null where the book never had as many entries. */
  proofHex: z.array(z.string()).nullable(),
});
export type SignedHead = z.infer<typeof signedHead>;

/** The last head of a book that this device saw and found right. */
export const seenHead = z.object({ note: z.string(), verifierKey: z.string(), at: z.string() });
export type SeenHead = z.infer<typeof seenHead>;

export const breaks = z.enum(['shorter', 'forked', 'another-key', 'not-signed', 'not-proven']);
/** `shorter`: there are fewer entries; `forked`: as many or more, and not a continuation; `another-key`: no statement of a key before leads to it; `not-signed`: whose it is cannot be told; `not-proven`. */
export type Break = z.infer<typeof breaks>;
export type GoesOn = { readonly ok: true } | { readonly ok: false; readonly why: Break };

const broken = (why: Break): GoesOn => ({ ok: false, why });
const hash = /^[0-9a-f]{64}$/;

/**
 * Whether what the service shows now goes on from what was seen; of a book that was never seen, whether it is signed by the key that comes with it, for
 * this book. Never throws. RFC 9162 §2.1.4.2; c2sp.org/signed-note.
 */
export function goesOn(seen: Omit<SeenHead, 'at'> | null, now: SignedHead): GoesOn {
  if (seen !== null && !leadsTo(seen, now)) return broken('another-key');
  const next = headIn(now.note, now.verifierKey);
  if (next === undefined || !next.origin.endsWith(`/${now.book}`)) return broken('not-signed');
  const last = seen === null ? null : headIn(seen.note, seen.verifierKey);
  if (last === null) return { ok: true };
  if (last?.origin !== next.origin) return broken('not-signed');
  if (next.size < last.size) return broken('shorter');
  const { proofHex } = now;
  if (proofHex === null || !proofHex.every((one) => hash.test(one))) return broken('not-proven');
  const claim = { from: last.size, to: next.size, fromRoot: last.root, toRoot: next.root, proof: proofHex.map(fromHex) };
  return verifyConsistency(claim) ? { ok: true } : broken('forked');
}

/** Whether the key of what was seen is the one that is shown, or signed, itself or by the one after it, that another comes after it; and both signed in their turn. */
function leadsTo(seen: Omit<SeenHead, 'at'>, now: SignedHead): boolean {
  if (seen.verifierKey === now.verifierKey) return true;
  const history = followKeys(now.keys, now.verifierKey);
  const { turns } = history;
  const known = turns.findIndex(({ key }) => key === seen.verifierKey);
  if (known < 0 || !vouches(history, known, turns.length - 1)) return false;
  const [before, after] = [openSeal(seen.note, turns), openSeal(now.note, turns)];
  return before.finding === 'good' && before.turn === known && after.finding === 'good' && after.turn === turns.length - 1;
}

/** How many entries a head speaks of; null where it cannot be read. */
export const sizeOf = ({ note, verifierKey }: Pick<SeenHead, 'note' | 'verifierKey'>): number | null =>
  headIn(note, verifierKey)?.size ?? null;

function headIn(note: string, verifierKey: string): Checkpoint | undefined {
  const opened = openNote(note, verifierKey);
  const said = opened.ok ? readCheckpoint(opened.text) : undefined;
  return said?.origin === readVerifierKey(verifierKey)?.name ? said : undefined;
}
