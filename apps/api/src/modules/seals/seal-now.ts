import { checkpointText, Frontier, signNote } from '@bakehouse/ledger';
import { ProblemException } from '../../platform/http/index.js';
import { originOf, sha256 } from '../../platform/ledger/index.js';
import type { SealKey } from './seal-key.js';
import { headOf, keepSeal, sealOf, type BookKey, type Client, type SealRow } from './seals.query.js';

type Signing = Pick<SealKey, 'seed'>;

/** A seal of a book of that size and root, signed. */
export async function signed(book: BookKey, key: Signing, tree: { readonly size: number; readonly root: Uint8Array }) {
  const origin = originOf(book.id);
  return { ...tree, note: signNote(checkpointText({ origin, ...tree }), origin, await key.seed()) };
}

/** The seal of the book as it stands; made where the head has moved on since the last. */
export async function sealNow(client: Client, book: BookKey, key: Signing, at: string): Promise<SealRow & { readonly origin: string }> {
  const head = await headOf(client, book);
  if (!head) throw new ProblemException('unknown-site');
  const root = (): Uint8Array => Frontier.from(head.size, head.frontier, sha256).root();
  const seal =
    (await sealOf(client, book, head.size)) ??
    (await keepSeal(client, book, { ...(await signed(book, key, { size: head.size, root: root() })), at }));
  if (!seal) throw new ProblemException('not-found');
  return { ...seal, origin: originOf(book.id) };
}
