import { describe, expect, it } from '@jest/globals';
import { toBase64 } from './base64.js';
import { formatFor, readBundle, type Bundle, type BundleBook, type BundleEntry } from './bundle.js';
import { fromHex, toHex, utf8 } from './bytes.js';
import { canonicalBytes } from './canonical.js';
import { checkpointText } from './checkpoint.js';
import { leafHash } from './hash.js';
import { publicKeyOf, verifierKey } from './note-key.js';
import { signNote } from './note.js';
import { Tree } from './tree.js';
import { verifyBundle } from './verify-bundle.js';

const seed = fromHex('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60'); // RFC 8032 §7.1, test 1
const origin = 'ledger.example/site';
const key = verifierKey(origin, publicKeyOf(seed));
const bodies = Array.from({ length: 13 }, (_, seq) => canonicalBytes({ seq, celsius: '74.5' }));
const treeOf = (size: number) => Tree.over(bodies.slice(0, size).map((bytes) => leafHash(bytes)));
const seal = (size: number, who = origin) => signNote(checkpointText({ origin: who, size, root: treeOf(size).root() }), origin, seed);
const entries: BundleEntry[] = bodies.map((bytes, seq) => ({ seq, bytesBase64: toBase64(bytes) }));
const proven = (seq: number) => ({
  seq,
  bytesBase64: toBase64(bodies[seq] ?? new Uint8Array()),
  proofHex: treeOf(13).inclusionProof(seq).map(toHex),
});
const withheld = (seq: number) => ({ seq, withheldLeafHex: toHex(leafHash(bodies[seq] ?? new Uint8Array())) });
const whole: BundleBook = { name: 'Site', checkpoint: seal(13), verifierKey: key, first: 0, count: 13, entries };
const bundle = (...books: readonly BundleBook[]): Bundle => ({ format: formatFor(books), books });
const verifyBook = (book: BundleBook) => {
  const [report] = verifyBundle(bundle(book)).books;
  if (report === undefined) throw new Error('no report');
  return report;
};
/** What the book says it holds is set to what it holds, so that only what the test is about is found. */
const holding = (seqs: readonly number[]) => ({ first: Math.min(...seqs), count: Math.max(...seqs) - Math.min(...seqs) + 1 });
const three = { ...whole, ...holding([3]) };

describe('the outsider’s check', () => {
  it('a whole ledger fits its seal', () => {
    const report = verifyBook(whole);
    expect(report).toMatchObject({
      ok: true,
      seal: 'good',
      origin,
      size: 13,
      rootHex: toHex(treeOf(13).root()),
      wholeTree: 'fits',
      counts: { 'in-the-tree': 13 },
      findings: [],
    });
    expect(verifyBundle(bundle(whole)).says).toContain('Every entry up to the seal was given: none was left out, added or moved.');
  });

  it('withheld bodies still count, and are told', () => {
    expect(verifyBook({ ...whole, entries: entries.with(4, withheld(4)) })).toMatchObject({
      ok: true,
      wholeTree: 'fits',
      counts: { 'in-the-tree': 12, 'in-the-tree-body-withheld': 1 },
      findings: [{ seq: 4, finding: 'in-the-tree-body-withheld' }],
    });
  });

  it('a few entries are checked by their proofs, nothing is said of the others, and what is missing between them is told', () => {
    const few = [proven(3), { ...withheld(7), proofHex: treeOf(13).inclusionProof(7).map(toHex) }, proven(12)];
    expect(verifyBook({ ...whole, ...holding([3]), entries: [proven(3)] })).toMatchObject({ ok: true, wholeTree: 'not-given' });
    expect(verifyBook({ ...whole, ...holding([3, 12]), entries: few })).toMatchObject({
      ok: false,
      counts: { 'in-the-tree': 2, 'in-the-tree-body-withheld': 1, 'left-out': 7 },
      findings: [
        { seq: 4, finding: 'left-out' },
        { seq: 7, finding: 'in-the-tree-body-withheld' },
        { seq: 8, finding: 'left-out' },
      ],
    });
    const { says } = verifyBundle(bundle({ ...three, entries: [proven(3)] }));
    expect(says.join(' ')).toContain('Not every entry of the book was given: of the others this says nothing');
  });

  const changed = toBase64(canonicalBytes({ seq: 3, celsius: '76.5' }));
  it.each([
    ['changed', { ...proven(3), bytesBase64: changed }, 'not-in-the-tree'],
    ['moved', { ...proven(3), seq: 4 }, 'not-in-the-tree'],
    ['beyond the seal', { ...proven(3), seq: 13 }, 'not-in-the-tree'],
    ['without proof', entries[3] ?? proven(3), 'no-proof'],
    ['without bytes or leaf', { seq: 3, proofHex: [] }, 'malformed'],
    ['given with bytes and a leaf', { ...withheld(3), ...proven(3) }, 'malformed'],
    ['with a broken proof', { ...proven(3), proofHex: ['zz'] }, 'malformed'],
    ['with broken bytes', { ...proven(3), bytesBase64: '*' }, 'malformed'],
  ])('one entry that is %s is found', (_what, entry, finding) => {
    const report = verifyBook({ ...whole, ...holding([entry.seq]), entries: [entry] });
    expect(report).toMatchObject({ ok: false, counts: { [finding]: 1 }, findings: [{ seq: entry.seq, finding }] });
  });

  it('in a whole ledger a changed, left out, repeated or moved entry is found', () => {
    const swap = entries
      .with(3, { seq: 3, bytesBase64: entries[4]?.bytesBase64 ?? '' })
      .with(4, { seq: 4, bytesBase64: entries[3]?.bytesBase64 ?? '' });
    for (const given of [entries.with(3, { seq: 3, bytesBase64: changed }), swap])
      expect(verifyBook({ ...whole, entries: given })).toMatchObject({ ok: false, wholeTree: 'differs' });
    expect(verifyBook({ ...whole, entries: entries.toSpliced(3, 1) })).toMatchObject({
      ok: false,
      wholeTree: 'not-given',
      counts: { 'no-proof': 12, 'left-out': 1 },
    });
    expect(verifyBook({ ...whole, entries: [...entries, ...entries.slice(0, 1)] })).toMatchObject({
      ok: false,
      findings: [{ seq: 0, finding: 'given-twice' }],
    });
    const [first, ...rest] = entries;
    expect(verifyBook({ ...whole, entries: first ? [...rest, first] : [] })).toMatchObject({
      ok: false,
      findings: [{ seq: 0, finding: 'out-of-place' }],
    });
    expect(verifyBook({ ...whole, count: 12 })).toMatchObject({ ok: false, findings: [{ seq: 12, finding: 'out-of-place' }] });
  });

  it('bytes that were sealed but are not canonical are told', () => {
    const bytes = utf8('{"seq": 0}');
    const tree = Tree.over([leafHash(bytes)]);
    const checkpoint = signNote(checkpointText({ origin, size: 1, root: tree.root() }), origin, seed);
    expect(verifyBook({ ...whole, checkpoint, count: 1, entries: [{ seq: 0, bytesBase64: toBase64(bytes) }] })).toMatchObject({
      ok: false,
      wholeTree: 'fits',
      findings: [{ seq: 0, finding: 'not-canonical' }],
    });
  });

  it('nothing is judged under a seal that cannot be relied on', () => {
    const other = verifierKey(origin, publicKeyOf(seed.map((byte) => byte ^ 1)));
    expect(verifyBook({ ...whole, verifierKey: other })).toMatchObject({ ok: false, seal: 'not-signed-by-key', counts: {}, size: null });
    for (const [checkpoint, finding] of [
      [whole.checkpoint.replace('\n13\n', '\n12\n'), 'signature-wrong'],
      [signNote('three\nlines\nonly\n', origin, seed), 'malformed-checkpoint'],
    ] as const)
      expect(verifyBook({ ...whole, checkpoint })).toMatchObject({ ok: false, seal: finding });
  });

  it('earlier seals are held against the later one, by proof or by the whole ledger', () => {
    const proofHex = treeOf(13).consistencyProof(6).map(toHex);
    const some = { ...three, entries: [proven(3)] };
    const rewritten = signNote(checkpointText({ origin, size: 6, root: treeOf(7).root() }), origin, seed);
    expect(verifyBook({ ...some, earlier: [{ checkpoint: seal(6), proofHex }] })).toMatchObject({
      ok: true,
      earlier: [{ size: 6, finding: 'good' }],
    });
    expect(verifyBook({ ...whole, earlier: [{ checkpoint: seal(6) }, { checkpoint: seal(0) }] })).toMatchObject({ ok: true });
    for (const [book, earlier, finding] of [
      [some, { checkpoint: seal(6) }, 'no-proof'],
      [some, { checkpoint: seal(5), proofHex }, 'history-differs'],
      [some, { checkpoint: seal(6, 'elsewhere.example'), proofHex }, 'another-origin'],
      [whole, { checkpoint: rewritten }, 'history-differs'],
    ] as const)
      expect(verifyBook({ ...book, earlier: [earlier] })).toMatchObject({ ok: false, earlier: [{ finding }] });
  });

  it('what the reader had before is looked for, and said of which book', () => {
    const proofHex = treeOf(13).consistencyProof(6).map(toHex);
    const given = bundle({ ...whole, earlier: [{ checkpoint: seal(6), proofHex }] }, { ...whole, name: 'Another', checkpoint: 'none' });
    const found = (held: string) => verifyBundle(bundle(...given.books.slice(0, 1)), [held]);
    for (const [held, finding] of [
      [key, 'is-a-key-here'],
      [` ${seal(6)}`, 'is-a-seal-here'],
      [toHex(treeOf(6).root()).toUpperCase(), 'is-a-seal-here'],
    ] as const)
      expect(found(held)).toMatchObject({ ok: true, held: [{ finding, origin }] });
    for (const held of [seal(7), toHex(treeOf(7).root()), 'x'])
      expect(found(held)).toMatchObject({ ok: false, held: [{ finding: 'not-here', origin: null }] });
    expect(verifyBundle(given, [key]).says.join(' ')).toContain('Another: you had neither key, seal nor witness of this book before');
    expect(verifyBundle(bundle(whole)).says.join(' ')).toContain('You compared nothing with a key or a seal that you had before');
  });

  it('reads a bundle from a file and refuses another shape', () => {
    expect(readBundle(JSON.stringify(bundle(whole)))).toEqual(bundle(whole));
    for (const text of [
      '',
      '{}',
      '[]',
      JSON.stringify(bundle()),
      JSON.stringify({ ...bundle(whole), format: 'ledger-bundle/3' }),
      JSON.stringify({ ...bundle(whole), books: [{ ...whole, entries: [{ seq: '1' }] }] }),
      JSON.stringify({ ...bundle(whole), books: [{ ...whole, earlier: [{}] }] }),
      JSON.stringify({ ...bundle(whole), books: [{ ...whole, count: -1 }] }),
    ])
      expect(readBundle(text)).toBeUndefined();
  });
});
