import { fromBase64 } from './base64.js';
import type { BundleBook, BundleEntry, EarlierSeal } from './bundle.js';
import { fromHex, sameBytes, toHex } from './bytes.js';
import { isCanonical } from './canonical.js';
import type { Checkpoint } from './checkpoint.js';
import { rootOf } from './frontier.js';
import { leafHash, type Sha256 } from './hash.js';
import type { KeyHistory, KeyTurn } from './key-change.js';
import { openBookSeal, openSeal } from './open-seal.js';
import type { BookReport, EarlierFinding, EntryFinding } from './report.js';
import { verifyConsistency, verifyInclusion } from './verify-proofs.js';
import { wordsFit } from './verify-words.js';

interface Leaf {
  readonly entry: BundleEntry;
  readonly bytes: Uint8Array | undefined;
  readonly leaf: Uint8Array | undefined;
  /** Of this number there was one before; or it stands where the book's numbers do not lead. */
  readonly place: 'given-twice' | 'out-of-place' | 'right';
}

/** The tree that a seal speaks of, and whether all its leaves were given and give its root. */
interface Sealed extends Checkpoint {
  readonly whole: Uint8Array[] | undefined;
  readonly fits: boolean | undefined;
}

function hashOrNothing(hex: string | undefined): Uint8Array | undefined {
  return hex !== undefined && /^[0-9a-f]{64}$/.test(hex) ? fromHex(hex) : undefined;
}

function leavesOf({ entries, first, count }: BundleBook, hash: Sha256): Leaf[] {
  const seen = new Set<number>();
  let last = -1;
  return entries.map((entry) => {
    const { seq, bytesBase64, withheldLeafHex } = entry;
    const misplaced = seq <= last || seq < first || seq >= first + count;
    const place = seen.has(seq) ? 'given-twice' : misplaced ? 'out-of-place' : 'right';
    seen.add(seq);
    last = Math.max(last, seq);
    const bytes = bytesBase64 === undefined ? undefined : fromBase64(bytesBase64);
    const both = bytesBase64 !== undefined && withheldLeafHex !== undefined;
    const leaf = bytesBase64 === undefined ? hashOrNothing(withheldLeafHex) : bytes && leafHash(bytes, hash);
    return { entry, bytes, leaf: both ? undefined : leaf, place };
  });
}

/** All leaves in order when none is missing, otherwise undefined. */
function wholeTree(leaves: readonly Leaf[], size: number): Uint8Array[] | undefined {
  const bySeq = new Map(leaves.map(({ entry, leaf }) => [entry.seq, leaf]));
  if (size > leaves.length) return undefined;
  const ordered: Uint8Array[] = [];
  for (let seq = 0; seq < size; seq += 1) {
    const leaf = bySeq.get(seq);
    if (leaf === undefined) return undefined;
    ordered.push(leaf);
  }
  return ordered;
}

function judgeEntry({ entry, bytes, leaf, place }: Leaf, seal: Sealed, hash: Sha256): EntryFinding {
  if (place !== 'right') return place;
  const proof = entry.proofHex?.map(hashOrNothing);
  if (leaf === undefined || (proof !== undefined && !proof.every((step) => step !== undefined))) return 'malformed';
  if (proof === undefined && seal.fits === undefined) return 'no-proof';
  const stands =
    proof === undefined
      ? seal.fits === true && entry.seq < seal.size
      : verifyInclusion({ index: entry.seq, size: seal.size, leaf, proof, root: seal.root }, hash);
  if (!stands) return 'not-in-the-tree';
  if (bytes === undefined) return (entry.words ?? []).length > 0 ? 'word-differs' : 'in-the-tree-body-withheld';
  if (!isCanonical(bytes)) return 'not-canonical';
  return wordsFit(entry.words ?? [], bytes, hash) ? 'in-the-tree' : 'word-differs';
}

/** Numbers that the book says it holds and no entry has: each gap by its first, and how many there are in all. */
function gapsIn({ entries, first, count }: BundleBook): { starts: number[]; missing: number } {
  const numbers = [...new Set(entries.map(({ seq }) => seq))].filter((seq) => seq >= first && seq < first + count).sort((a, b) => a - b);
  const starts: number[] = [];
  let next = first;
  for (const seq of [...numbers, first + count]) {
    if (seq > next) starts.push(next);
    next = seq + 1;
  }
  return { starts, missing: count - numbers.length };
}

function judgeEarlier(earlier: EarlierSeal, keys: readonly KeyTurn[], seal: Sealed, hash: Sha256): BookReport['earlier'][number] {
  const { finding, checkpoint } = openSeal(earlier.checkpoint, keys);
  if (checkpoint === undefined) return { size: null, rootHex: null, finding };
  const { origin, size, root } = checkpoint;
  const said = (what: EarlierFinding) => ({ size, rootHex: toHex(root), finding: what });
  const { whole } = seal;
  if (origin !== seal.origin) return said('another-origin');
  if (earlier.proofHex === undefined && whole === undefined) return said('no-proof');
  if (whole !== undefined && !(size <= whole.length && sameBytes(rootOf(whole.slice(0, size), hash), root))) return said('history-differs');
  const proof = earlier.proofHex?.map(hashOrNothing);
  if (proof === undefined) return said('good');
  const claim = { from: size, to: seal.size, fromRoot: root, toRoot: seal.root };
  return said(proof.every((step) => step !== undefined) && verifyConsistency({ ...claim, proof }, hash) ? 'good' : 'history-differs');
}

/** Checks one book of a bundle: its seal's signature, each entry's place, form and texts, gaps, and earlier seals. Never throws. */
export function verifyBook(book: BundleBook, { found: keys, turns }: KeyHistory, hash: Sha256): BookReport {
  const { finding, checkpoint } = openBookSeal(book.checkpoint, turns);
  if (checkpoint === undefined) {
    const nothing = { origin: null, size: null, rootHex: null, wholeTree: 'not-given' as const, counts: {}, findings: [], earlier: [] };
    return { ok: false, name: book.name, seal: finding, keys, ...nothing, wordsOpened: 0 };
  }
  const leaves = leavesOf(book, hash);
  const whole = wholeTree(leaves, checkpoint.size);
  const seal: Sealed = { ...checkpoint, whole, fits: whole && sameBytes(rootOf(whole, hash), checkpoint.root) };
  const judged = leaves.map((leaf) => ({ seq: leaf.entry.seq, finding: judgeEntry(leaf, seal, hash) }));
  const { starts, missing } = gapsIn(book);
  const counts: Partial<Record<EntryFinding, number>> = missing > 0 ? { 'left-out': missing } : {};
  for (const { finding: what } of judged) counts[what] = (counts[what] ?? 0) + 1;
  const findings = [...judged, ...starts.map((seq) => ({ seq, finding: 'left-out' as const }))]
    .filter((one) => one.finding !== 'in-the-tree')
    .sort((a, b) => a.seq - b.seq);
  const earlier = (book.earlier ?? []).map((one) => judgeEarlier(one, turns, seal, hash));
  const entriesFit = findings.every((one) => one.finding === 'in-the-tree-body-withheld');
  return {
    ok: seal.fits !== false && entriesFit && earlier.every((one) => one.finding === 'good'),
    name: book.name,
    seal: finding,
    keys,
    origin: seal.origin,
    size: seal.size,
    rootHex: toHex(seal.root),
    wholeTree: seal.fits === undefined ? 'not-given' : seal.fits ? 'fits' : 'differs',
    counts,
    findings,
    wordsOpened: leaves.reduce((sum, { entry }, i) => sum + (judged[i]?.finding === 'in-the-tree' ? (entry.words?.length ?? 0) : 0), 0),
    earlier,
  };
}
