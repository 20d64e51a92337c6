import { describe, expect, it } from '@jest/globals';
import { toBase64 } from './base64.js';
import { readBundle, type Bundle, type BundleEntry } from './bundle.js';
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
const whole: Bundle = { checkpoint: seal(13), verifierKey: key, entries };

describe('the outsider’s check', () => {
  it('a whole ledger fits its seal', () => {
    const report = verifyBundle(whole);
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
    expect(report.says).toContain('Every entry was given: none was left out, added or moved.');
  });

  it('withheld bodies still count, and are told', () => {
    const report = verifyBundle({ ...whole, entries: entries.with(4, withheld(4)) });
    expect(report).toMatchObject({
      ok: true,
      wholeTree: 'fits',
      counts: { 'in-the-tree': 12, 'in-the-tree-body-withheld': 1 },
      findings: [{ seq: 4, finding: 'in-the-tree-body-withheld' }],
    });
  });

  it('a few entries are checked by their proofs, and nothing is said of the others', () => {
    const report = verifyBundle({
      ...whole,
      entries: [proven(3), proven(12), { ...withheld(7), proofHex: treeOf(13).inclusionProof(7).map(toHex) }],
    });
    expect(report).toMatchObject({ ok: true, wholeTree: 'not-given', counts: { 'in-the-tree': 2, 'in-the-tree-body-withheld': 1 } });
    expect(report.says).toContain('Not every entry was given: of the others this says nothing.');
  });

  const changed = toBase64(canonicalBytes({ seq: 3, celsius: '76.5' }));
  it.each([
    ['changed', { ...proven(3), bytesBase64: changed }, 'not-in-the-tree'],
    ['moved', { ...proven(3), seq: 4 }, 'not-in-the-tree'],
    ['beyond the seal', { ...proven(3), seq: 13 }, 'not-in-the-tree'],
    ['without proof', entries[3] ?? proven(3), 'no-proof'],
    ['without bytes or leaf', { seq: 3, proofHex: [] }, 'malformed'],
    ['with a broken proof', { ...proven(3), proofHex: ['zz'] }, 'malformed'],
    ['with broken bytes', { ...proven(3), bytesBase64: '*' }, 'malformed'],
  ])('one entry that is %s is found', (_what, entry, finding) => {
    const report = verifyBundle({ ...whole, entries: [proven(0), entry] });
    expect(report).toMatchObject({ ok: false, counts: { 'in-the-tree': 1, [finding]: 1 }, findings: [{ seq: entry.seq, finding }] });
  });

  it('in a whole ledger a changed, left out, repeated or moved entry is found', () => {
    const swap = entries
      .with(3, { seq: 4, bytesBase64: entries[3]?.bytesBase64 ?? '' })
      .with(4, { seq: 3, bytesBase64: entries[4]?.bytesBase64 ?? '' });
    for (const given of [entries.with(3, { seq: 3, bytesBase64: changed }), swap])
      expect(verifyBundle({ ...whole, entries: given })).toMatchObject({ ok: false, wholeTree: 'differs' });
    expect(verifyBundle({ ...whole, entries: entries.toSpliced(3, 1) })).toMatchObject({
      ok: false,
      wholeTree: 'not-given',
      counts: { 'no-proof': 12 },
    });
    expect(verifyBundle({ ...whole, entries: [...entries, ...entries.slice(0, 1)] })).toMatchObject({
      ok: false,
      counts: { 'given-twice': 1 },
    });
  });

  it('bytes that were sealed but are not canonical are told', () => {
    const bytes = utf8('{"seq": 0}');
    const tree = Tree.over([leafHash(bytes)]);
    const checkpoint = signNote(checkpointText({ origin, size: 1, root: tree.root() }), origin, seed);
    expect(
      verifyBundle({
        checkpoint,
        verifierKey: key,
        entries: [{ seq: 0, bytesBase64: toBase64(bytes) }],
      }),
    ).toMatchObject({ ok: false, wholeTree: 'fits', findings: [{ seq: 0, finding: 'not-canonical' }] });
  });

  it('nothing is judged under a seal that cannot be relied on', () => {
    const other = verifierKey(origin, publicKeyOf(seed.map((byte) => byte ^ 1)));
    expect(verifyBundle({ ...whole, verifierKey: other })).toMatchObject({ ok: false, seal: 'not-signed-by-key', counts: {}, size: null });
    expect(verifyBundle({ ...whole, checkpoint: whole.checkpoint.replace('\n13\n', '\n12\n') })).toMatchObject({
      ok: false,
      seal: 'signature-wrong',
    });
    expect(verifyBundle({ ...whole, checkpoint: signNote('three\nlines\nonly\n', origin, seed) })).toMatchObject({
      ok: false,
      seal: 'malformed-checkpoint',
    });
  });

  it('earlier seals are held against the later one, by proof or by the whole ledger', () => {
    const proofHex = treeOf(13).consistencyProof(6).map(toHex);
    const some = { ...whole, entries: [proven(3)] };
    expect(verifyBundle({ ...some, earlier: [{ checkpoint: seal(6), proofHex }] })).toMatchObject({
      ok: true,
      earlier: [{ size: 6, finding: 'good' }],
    });
    expect(verifyBundle({ ...whole, earlier: [{ checkpoint: seal(6) }, { checkpoint: seal(0) }] })).toMatchObject({ ok: true });
    expect(verifyBundle({ ...some, earlier: [{ checkpoint: seal(6) }] })).toMatchObject({ ok: false, earlier: [{ finding: 'no-proof' }] });
    expect(
      verifyBundle({
        ...some,
        earlier: [{ checkpoint: seal(5), proofHex }],
      }),
    ).toMatchObject({ ok: false, earlier: [{ size: 5, finding: 'history-differs' }] });
    expect(
      verifyBundle({
        ...some,
        earlier: [{ checkpoint: seal(6, 'elsewhere.example'), proofHex }],
      }),
    ).toMatchObject({ ok: false, earlier: [{ finding: 'another-origin' }] });
    const rewritten = signNote(checkpointText({ origin, size: 6, root: treeOf(7).root() }), origin, seed);
    expect(verifyBundle({ ...whole, earlier: [{ checkpoint: rewritten }] })).toMatchObject({
      ok: false,
      earlier: [{ finding: 'history-differs' }],
    });
  });

  it('reads a bundle from a file and refuses another shape', () => {
    expect(readBundle(JSON.stringify(whole))).toEqual(whole);
    for (const text of [
      '',
      '{}',
      '[]',
      '{"checkpoint":"","verifierKey":""}',
      JSON.stringify({ ...whole, entries: [{ seq: '1' }] }),
      JSON.stringify({ ...whole, earlier: [{}] }),
    ])
      expect(readBundle(text)).toBeUndefined();
  });
});
