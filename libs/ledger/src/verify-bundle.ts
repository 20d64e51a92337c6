import { fromBase64 } from './base64.js';
import type { Bundle, BundleEntry, EarlierSeal } from './bundle.js';
import { fromHex, sameBytes, toHex } from './bytes.js';
import { isCanonical } from './canonical.js';
import { readCheckpoint, type Checkpoint } from './checkpoint.js';
import { rootOf } from './frontier.js';
import { leafHash, sha256, type Sha256 } from './hash.js';
import { openNote, type NoteFault } from './note.js';
import { verifyConsistency, verifyInclusion } from './verify-proofs.js';

/** `no-proof`: neither a proof was given nor all entries, so nothing can be said. */
export type EntryFinding =
  'in-the-tree' | 'in-the-tree-body-withheld' | 'not-in-the-tree' | 'not-canonical' | 'malformed' | 'no-proof' | 'given-twice';
export type SealFinding = 'good' | NoteFault | 'malformed-checkpoint';
export type EarlierFinding = SealFinding | 'another-origin' | 'history-differs' | 'no-proof';

export interface BundleReport {
  /** Everything given was checked and is as it was sealed. */
  readonly ok: boolean;
  readonly seal: SealFinding;
  readonly origin: string | null;
  readonly size: number | null;
  readonly rootHex: string | null;
  /** Where every leaf was given, whether they give the sealed root. */
  readonly wholeTree: 'fits' | 'differs' | 'not-given';
  readonly counts: Readonly<Partial<Record<EntryFinding, number>>>;
  /** Entries that are not simply in the tree, first one first. */
  readonly findings: readonly { readonly seq: number; readonly finding: EntryFinding }[];
  readonly earlier: readonly { readonly size: number | null; readonly finding: EarlierFinding }[];
  /** What was checked and what that does not prove, in plain sentences. */
  readonly says: readonly string[];
}

interface Leaf {
  readonly entry: BundleEntry;
  readonly leaf: Uint8Array | undefined;
  readonly canonical: boolean;
  readonly twice: boolean;
}

function openSeal(note: string, key: string): { finding: SealFinding; checkpoint?: Checkpoint } {
  const opened = openNote(note, key);
  if (!opened.ok) return { finding: opened.why };
  const checkpoint = readCheckpoint(opened.text);
  return checkpoint === undefined ? { finding: 'malformed-checkpoint' } : { finding: 'good', checkpoint };
}

function hashOrNothing(hex: string | undefined): Uint8Array | undefined {
  return hex !== undefined && /^[0-9a-f]{64}$/.test(hex) ? fromHex(hex) : undefined;
}

function leavesOf(entries: readonly BundleEntry[], hash: Sha256): Leaf[] {
  const seen = new Set<number>();
  return entries.map((entry) => {
    const twice = seen.has(entry.seq);
    seen.add(entry.seq);
    const bytes = entry.bytesBase64 === undefined ? undefined : fromBase64(entry.bytesBase64);
    if (entry.bytesBase64 === undefined) return { entry, leaf: hashOrNothing(entry.withheldLeafHex), canonical: true, twice };
    return { entry, leaf: bytes && leafHash(bytes, hash), canonical: bytes !== undefined && isCanonical(bytes), twice };
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

function judgeEntry(
  { entry, leaf, canonical, twice }: Leaf,
  seal: Checkpoint,
  wholeIsSealed: boolean | undefined,
  hash: Sha256,
): EntryFinding {
  if (twice) return 'given-twice';
  if (leaf === undefined) return 'malformed';
  const proof = entry.proofHex?.map(hashOrNothing);
  if (proof === undefined && wholeIsSealed === undefined) return 'no-proof';
  if (proof !== undefined && !proof.every((step) => step !== undefined)) return 'malformed';
  const stands =
    proof === undefined
      ? wholeIsSealed === true && entry.seq >= 0 && entry.seq < seal.size
      : verifyInclusion({ index: entry.seq, size: seal.size, leaf, proof, root: seal.root }, hash);
  if (!stands) return 'not-in-the-tree';
  if (!canonical) return 'not-canonical';
  return entry.bytesBase64 === undefined ? 'in-the-tree-body-withheld' : 'in-the-tree';
}

function judgeEarlier(earlier: EarlierSeal, key: string, seal: Checkpoint, whole: Uint8Array[] | undefined, hash: Sha256) {
  const { finding, checkpoint } = openSeal(earlier.checkpoint, key);
  const said = (what: EarlierFinding) => ({ size: checkpoint?.size ?? null, finding: what });
  if (checkpoint === undefined) return said(finding);
  if (checkpoint.origin !== seal.origin) return said('another-origin');
  if (earlier.proofHex === undefined && whole === undefined) return said('no-proof');
  if (whole !== undefined) {
    const same = checkpoint.size <= whole.length && sameBytes(rootOf(whole.slice(0, checkpoint.size), hash), checkpoint.root);
    if (!same) return said('history-differs');
  }
  const proof = earlier.proofHex?.map(hashOrNothing);
  if (proof === undefined) return said('good');
  const claim = { from: checkpoint.size, to: seal.size, fromRoot: checkpoint.root, toRoot: seal.root };
  return said(proof.every((step) => step !== undefined) && verifyConsistency({ ...claim, proof }, hash) ? 'good' : 'history-differs');
}

/**
 * Checks what a ledger hands out against its signed seal, without trusting the keeper of the ledger: signature, each entry's place, canonical form,
 * and earlier seals. Never throws. Rules: RFC 9162, RFC 8785, c2sp.org/signed-note, c2sp.org/tlog-checkpoint.
 */
export function verifyBundle(bundle: Bundle, hash: Sha256 = sha256): BundleReport {
  const { finding: seal, checkpoint } = openSeal(bundle.checkpoint, bundle.verifierKey);
  if (checkpoint === undefined) {
    const nothing = { origin: null, size: null, rootHex: null, wholeTree: 'not-given' as const, counts: {}, findings: [], earlier: [] };
    return { ok: false, seal, ...nothing, says: [`The seal cannot be relied on (${seal}), so no entry was judged.`] };
  }
  const leaves = leavesOf(bundle.entries, hash);
  const whole = wholeTree(leaves, checkpoint.size);
  const wholeIsSealed = whole && sameBytes(rootOf(whole, hash), checkpoint.root);
  const judged = leaves.map((leaf) => ({ seq: leaf.entry.seq, finding: judgeEntry(leaf, checkpoint, wholeIsSealed, hash) }));
  const counts: Partial<Record<EntryFinding, number>> = {};
  for (const { finding } of judged) counts[finding] = (counts[finding] ?? 0) + 1;
  const earlier = (bundle.earlier ?? []).map((one) => judgeEarlier(one, bundle.verifierKey, checkpoint, whole, hash));
  const findings = judged.filter(({ finding }) => finding !== 'in-the-tree');
  const entriesFit = findings.every(({ finding }) => finding === 'in-the-tree-body-withheld');
  const ok = wholeIsSealed !== false && entriesFit && earlier.every(({ finding }) => finding === 'good');
  const wholeSays = wholeIsSealed === undefined ? 'not-given' : wholeIsSealed ? 'fits' : 'differs';
  const { origin, size, root } = checkpoint;
  const report = { ok, seal, origin, size, rootHex: toHex(root), wholeTree: wholeSays } as const;
  return {
    ...report,
    counts,
    findings,
    earlier,
    says: sentences(
      report,
      counts,
      judged.length,
      earlier.map(({ finding }) => finding),
    ),
  };
}

const wholeSentence = {
  fits: 'Every entry was given: none was left out, added or moved.',
  differs: 'Every entry was given, and together they are not what was sealed.',
  'not-given': 'Not every entry was given: of the others this says nothing.',
} as const;

function sentences(
  report: Pick<BundleReport, 'ok' | 'origin' | 'size' | 'wholeTree'>,
  counts: BundleReport['counts'],
  given: number,
  earlier: readonly EarlierFinding[],
): string[] {
  const good = (counts['in-the-tree'] ?? 0) + (counts['in-the-tree-body-withheld'] ?? 0);
  const withheld = counts['in-the-tree-body-withheld'] ?? 0;
  return [
    `The seal of ${report.origin} is signed by the key that was given; it speaks of ${report.size} entries.`,
    `${good} of ${given} entries given are exactly those that were sealed${withheld > 0 ? `; of ${withheld} of them only the fingerprint is shown` : ''}.`,
    wholeSentence[report.wholeTree],
    ...(earlier.length === 0
      ? []
      : [`${earlier.filter((finding) => finding === 'good').length} of ${earlier.length} earlier seals still hold.`]),
    report.ok ? 'Nothing that was checked has changed since it was sealed.' : 'Something does not fit: see the findings.',
    'This does not show that what was recorded is true, nor that nothing was changed before it was sealed.',
  ];
}
