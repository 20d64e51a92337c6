import type { BookInBundle } from '@bakehouse/contracts';
import { toBase64, toHex } from '@bakehouse/ledger';
import { sha256 } from '../../platform/ledger/index.js';
import type { BookKeys } from './book-keys.js';
import { BlockTree } from './block-tree.js';
import { cosignaturesOf } from './cosignatures.query.js';
import { bodiesFrom, leavesOf, sealsBefore, wordsFrom, type BodyRow, type BookKey, type Client, type WordRow } from './seals.query.js';

/** Which fields' texts the reader may have. */
export type Fields = readonly string[] | 'all';

/** What of a book goes into a bundle: entries without a gap, and the texts beside them. */
export interface Handed {
  readonly first: number;
  readonly count: number;
  readonly fields: Fields;
}

/** What an officer is shown of texts in the records of a site: notes and reasons. Names, telephone numbers and addresses are not among them. */
export const shownFields: Fields = ['note', 'reason', 'action', 'what', 'review', 'why', 'because', 'condition', 'change'];
/** Names of people, telephone numbers and addresses too. */
export const allFields = 'all';

/** The most earlier seals in a bundle, the latest first: each takes about a kilobyte and a half. */
const maxEarlier = 500;

/** Entries of a book under its seal, each with its proof, and the seals before it with theirs. */
export async function bookInBundle(
  client: Client,
  book: BookKey & { readonly name: string },
  seal: { readonly size: number; readonly note: string; readonly keys: BookKeys },
  { first, count, fields }: Handed,
): Promise<BookInBundle> {
  const tree = new BlockTree(await leavesOf(client, book, seal.size), sha256);
  const [bodies, words, earlier] = [
    await bodiesFrom(client, book, first, count),
    await wordsFrom(client, book, first, count, fields),
    await sealsBefore(client, book, seal.size, maxEarlier),
  ];
  const signed = await cosignaturesOf(client, book, earlier.at(-1)?.size ?? seal.size, seal.size);
  const cosignatures = (size: number) => {
    const lines = signed.filter((one) => one.size === size).map(({ line }) => line);
    return lines.length > 0 ? { cosignatures: lines } : {};
  };
  const bySeq = new Map<number, WordRow[]>();
  for (const word of words) bySeq.set(word.seq, [...(bySeq.get(word.seq) ?? []), word]);
  return {
    name: book.name,
    checkpoint: seal.note,
    ...cosignatures(seal.size),
    verifierKey: seal.keys.verifierKey,
    ...(seal.keys.statements.length > 0 ? { keys: [...seal.keys.statements] } : {}),
    first,
    count,
    entries: bodies.map((body) => ({ ...entryOf(body, bySeq.get(body.seq) ?? []), proofHex: tree.inclusionProof(body.seq).map(toHex) })),
    earlier: earlier.map(({ note, size }) => ({
      checkpoint: note,
      ...cosignatures(size),
      proofHex: tree.consistencyProof(size).map(toHex),
    })),
  };
}

function entryOf({ seq, leaf, bytes }: BodyRow, words: readonly WordRow[]): BookInBundle['entries'][number] {
  if (!bytes) return { seq, withheldLeafHex: toHex(leaf) };
  const opened = words.map(({ key, salt, text }) => ({ field: key, salt, text }));
  return { seq, bytesBase64: toBase64(bytes), ...(opened.length > 0 ? { words: opened } : {}) };
}
