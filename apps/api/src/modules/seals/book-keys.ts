import { followKeys, openSeal, publicKeyOf, readKeyChange, readVerifierKey, textOfNote, verifierKey } from '@bakehouse/ledger';
import { originOf } from '../../platform/ledger/index.js';
import { keyChangesOf, keyStays, lastChangesOf } from './key-changes.query.js';
import type { SealKey } from './seal-key.js';
import type { BookKey, Client } from './seals.query.js';

/** What the seals of a book are checked with: the key that it has now, and the statements that lead to it, the oldest first. */
export interface BookKeys {
  readonly verifierKey: string;
  readonly statements: readonly string[];
}

/** The key after, in a statement; undefined where it cannot be read. */
export const keyAfter = (note: string): string | undefined => readKeyChange(textOfNote(note) ?? '')?.to;
/** The key after, as the statements of other books name it as well: without the book. */
export const publicAfter = (note: string): Uint8Array | undefined => readVerifierKey(keyAfter(note) ?? '')?.publicKey;

/**
 * The key that a book's seals are made with, which stays so until the transaction ends. A book that came after a change has the key of its house.
 * @throws where the key that was said last is not here
 */
export async function keysToSeal(client: Client, book: BookKey, key: SealKey): Promise<BookKeys & { readonly seed: Uint8Array }> {
  await keyStays(client);
  const changes = await keyChangesOf(client, book);
  const last = changes.at(-1) ?? (await lastChangesOf(client, book.organisation)).at(0);
  const seed = await key.seedOf(last && publicAfter(last.note));
  return { seed, verifierKey: verifierKey(originOf(book.id), publicKeyOf(seed)), statements: changes.map(({ note }) => note) };
}

/** The keys of a book, to show what was sealed: nothing is made with them. */
export async function keysToShow(client: Client, book: BookKey, key: SealKey): Promise<BookKeys> {
  const statements = (await keyChangesOf(client, book)).map(({ note }) => note);
  const last = statements.at(-1);
  return { statements, verifierKey: (last && keyAfter(last)) ?? (await key.verifierKey(originOf(book.id))) };
}

/** Which of a book's keys signed a seal; the one that it has now where none of them did. */
export function signerOf(note: string, { verifierKey: now, statements }: BookKeys): string {
  const { turns } = followKeys(statements, now);
  return turns[openSeal(note, turns).turn ?? turns.length - 1]?.key ?? now;
}
