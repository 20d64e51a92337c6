import { checkpointText, Frontier, signNote } from '@bakehouse/ledger';
import { ProblemException } from '../../platform/http/index.js';
import { afterSeal, originOf, sha256 } from '../../platform/ledger/index.js';
import { keysToSeal, type BookKeys } from './book-keys.js';
import { lastSealOf } from './cosignatures.query.js';
import type { SealKey } from './seal-key.js';
import { headOf, keepSeal, sealOf, type BookKey, type Client, type SealRow } from './seals.query.js';

/** A seal of a book of that size and root, signed; one that is kept names the kept one before it. */
export function signed(book: BookKey, seed: Uint8Array, tree: { readonly size: number; readonly root: Uint8Array }, before?: number) {
  const origin = originOf(book.id);
  const extensions = before === undefined ? [] : [afterSeal(before)];
  return { ...tree, note: signNote(checkpointText({ origin, ...tree, extensions }), origin, seed) };
}

/** The seal of the book as it stands, with the keys of the book; made where the head has moved on since the last. */
export async function sealNow(client: Client, book: BookKey, key: SealKey, at: string): Promise<SealRow & { readonly keys: BookKeys }> {
  const { seed, ...keys } = await keysToSeal(client, book, key);
  const head = await headOf(client, book);
  if (!head) throw new ProblemException('unknown-site');
  const root = (): Uint8Array => Frontier.from(head.size, head.frontier, sha256).root();
  const make = async (): Promise<SealRow | undefined> => {
    const before = (await lastSealOf(client, book))?.size;
    return keepSeal(client, book, { ...signed(book, seed, { size: head.size, root: root() }, before), at });
  };
  const seal = (await sealOf(client, book, head.size)) ?? (await make());
  if (!seal) throw new ProblemException('not-found');
  return { ...seal, keys };
}
