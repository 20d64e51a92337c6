import {
  canonicalBytes,
  checkpointText,
  commitment,
  fromHex,
  leafHash,
  publicKeyOf,
  signNote,
  toBase64,
  toHex,
  Tree,
  formatFor,
  verifierKey,
  type Bundle,
  type BundleBook,
  type BundleEntry,
} from '@bakehouse/ledger';

/** RFC 8032 §7.1, tests 1 and 2: the secret keys. */
export const seed = fromHex('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60');
export const otherSeed = fromHex('4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb');
export const origin = 'ledger.example/book/site';
const second = 'ledger.example/book/house';

export const salt = (n: number): string => n.toString(16).padStart(32, '0');
export const note = (seq: number): string => `Zwölf Brötchen, Blech ${seq} 🥖`;
/** A body such as the service writes, with a number that RFC 8785 spells in its own way, and a commitment to a text. */
export const body = (seq: number, celsius = '94.5'): Uint8Array =>
  canonicalBytes({
    format: 1,
    input: { kind: 'reading', payload: { celsius, share: seq / 3, tiny: seq * 1e-9 }, words: { note: commitment(salt(seq), note(seq)) } },
    stamp: { seq },
  });
export const bodies = Array.from({ length: 21 }, (_, seq) => body(seq));
export const treeOf = (size: number): Tree => Tree.over(bodies.slice(0, size).map((bytes) => leafHash(bytes)));
export const sealOf = (size: number, { who = origin, with: key = seed, root = treeOf(size).root() } = {}): string =>
  signNote(checkpointText({ origin: who, size, root }), who, key);
export const keyOf = (who = origin, key = seed): string => verifierKey(who, publicKeyOf(key));
export const earlierSeal = (size: number, to = 21) => ({
  checkpoint: sealOf(size),
  proofHex: treeOf(to).consistencyProof(size).map(toHex),
});

/** Entry 9 is withheld, the others open their text. */
export function entryOf(seq: number, to = 21): BundleEntry {
  const bytes = bodies[seq] ?? new Uint8Array();
  const proofHex = treeOf(to).inclusionProof(seq).map(toHex);
  if (seq === 9) return { seq, withheldLeafHex: toHex(leafHash(bytes)), proofHex };
  return { seq, bytesBase64: toBase64(bytes), proofHex, words: [{ field: 'note', salt: salt(seq), text: note(seq) }] };
}
const range = (from: number, until: number): number[] => Array.from({ length: until - from }, (_, i) => from + i);

export const book = (from: number, until: number, more: Partial<BundleBook> = {}): BundleBook => ({
  name: 'Site',
  checkpoint: sealOf(21),
  verifierKey: keyOf(),
  first: from,
  count: until - from,
  entries: range(from, until).map((seq) => entryOf(seq)),
  earlier: [0, 1, 5, 8, 16, 20, 21].map((size) => earlierSeal(size)),
  ...more,
});
export const houseBook: BundleBook = {
  name: 'House',
  checkpoint: sealOf(3, { who: second }),
  verifierKey: keyOf(second),
  first: 0,
  count: 0,
  entries: [],
};
export const bundleOf = (...books: readonly BundleBook[]): Bundle => ({ format: formatFor(books), books });
/** One entry of a book is another. */
export const withEntry = (of: BundleBook, seq: number, change: (entry: BundleEntry) => BundleEntry): BundleBook => ({
  ...of,
  entries: of.entries.map((entry) => (entry.seq === seq ? change(entry) : entry)),
});
