import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  cosign, leafHash, publicKeyOf, readBundle, signKeyChange, textOfNote, toBase64, toHex, Tree, utf8, verifyBundle, witnessKey, type Bundle, type BundleReport, type KeyChange,
} from '@bakehouse/ledger'; // prettier-ignore
import {
  bodies, body, book, bundleOf, earlierSeal, entryOf, houseBook, keyOf, note, origin, otherSeed, salt, sealOf, seed, treeOf, withEntry,
} from '../support/bundles.js'; // prettier-ignore
import { writeVerifiers } from '../support/verifiers.js';

const python = spawnSync('python3', ['--version']).status === 0;
if (!python) process.stderr.write('There is no python3 here: what the second checker says was not tried.\n');

let folder: string;
const at = (name: string): string => path.join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'bundle-'));
  writeVerifiers(folder);
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Run {
  readonly code: number | null;
  readonly report: Omit<BundleReport, 'says'>;
}
const parsed = (text: string): Omit<BundleReport, 'says'> => {
  const { says: _says, ...report }: BundleReport = JSON.parse(text);
  return report;
};

/** What the built script says, and the Python one where there is a Python. */
function both(bundle: Bundle, had: readonly string[] = []): Run[] {
  writeFileSync(at('bundle.json'), JSON.stringify(bundle));
  const words = [at('bundle.json'), '--json', ...had.flatMap((text) => ['--had', text])];
  const programs = [
    [process.execPath, at('verify.mjs')],
    ...(python ? [['python3', path.join(import.meta.dirname, 'verify_bundle.py')]] : []),
  ];
  return programs.map(([program = '', ...first]) => {
    const { status, stdout, stderr } = spawnSync(program, [...first, ...words], { encoding: 'utf8' });
    if (stdout === '') throw new Error(stderr);
    return { code: status, report: parsed(stdout) };
  });
}

/** Both say the same, which is what the library says; and that is given back. */
function said(bundle: Bundle, had: readonly string[] = []): Run {
  const { says: _says, ...expected } = verifyBundle(bundle, had);
  const runs = both(bundle, had);
  for (const run of runs) expect(run).toEqual({ code: expected.ok ? 0 : 1, report: JSON.parse(JSON.stringify(expected)) });
  return { code: expected.ok ? 0 : 1, report: expected };
}

const part = book(4, 14);
const whole = book(0, 21);
const golden = bundleOf(part, houseBook);

describe('a sound bundle', () => {
  it('in part, with a withheld body, texts, earlier seals and a second book, is accepted by both checkers', () => {
    const { code, report } = said(golden, [keyOf(), sealOf(8)]);
    expect([code, report.ok, report.books.map((b) => b.wordsOpened)]).toEqual([0, true, [9, 0]]);
    expect(report.books[0]).toMatchObject({
      counts: { 'in-the-tree': 9, 'in-the-tree-body-withheld': 1 },
      findings: [{ seq: 9, finding: 'in-the-tree-body-withheld' }],
      earlier: [0, 1, 5, 8, 16, 20, 21].map((size) => ({ size, finding: 'good' })),
    });
    expect(report.held.map((h) => h.finding)).toEqual(['is-a-key-here', 'is-a-seal-here']);
  });

  it('as a whole, with proofs or without, is accepted by both', () => {
    const bare = whole.entries.map(({ proofHex: _proof, ...entry }) => entry);
    const earlier = (whole.earlier ?? []).map(({ checkpoint }) => ({ checkpoint }));
    for (const one of [whole, { ...whole, entries: bare, earlier }])
      expect(said(bundleOf(one)).report.books).toMatchObject([{ ok: true, wholeTree: 'fits' }]);
  });

  it('of this format stays readable: the stored one is what is made today, and is accepted', () => {
    const stored = path.join(import.meta.dirname, 'golden/bundle.json');
    const text = `${JSON.stringify(golden, null, 1)}\n`;
    if (process.env['GOLDEN'] === 'write') writeFileSync(stored, text);
    expect(readFileSync(stored, 'utf8')).toBe(text);
    expect(verifyBundle(readBundle(text) ?? bundleOf()).ok).toBe(true);
  });
});

const bytesOf = (seq: number): Uint8Array => bodies[seq] ?? new Uint8Array();
const without = (seq: number) => ({ ...part, entries: part.entries.filter((entry) => entry.seq !== seq) });
const flipped = (hex: string): string => (hex.startsWith('0') ? '1' : '0') + hex.slice(1);
const swapped = {
  ...part,
  entries: part.entries.map((entry) => (entry.seq === 6 || entry.seq === 7 ? { ...entryOf(13 - entry.seq), seq: entry.seq } : entry)),
};
const loose = utf8(`{"a": 1}`);
const odd = { checkpoint: sealOf(1, { root: leafHash(loose) }), first: 0, count: 1, earlier: [] };
const madeUp = (size: number): string => sealOf(size, { root: leafHash(utf8('another history')) });

/** The same signature with the group's order added to S, which the equation alone would take. */
function largerS(sealed: string): string {
  const coded = sealed.trimEnd().split(' ').at(-1) ?? '';
  const bytes = Buffer.from(coded, 'base64');
  const order = 2n ** 252n + 27742317777372353535851937790883648493n;
  const s = BigInt(`0x${Buffer.from(bytes.subarray(36)).reverse().toString('hex')}`) + order;
  const larger = Buffer.from(s.toString(16).padStart(64, '0'), 'hex').reverse();
  return sealed.replace(coded, Buffer.concat([bytes.subarray(0, 36), larger]).toString('base64'));
}

/** Everything that is done to a bundle here, and what of it is named. */
const tampered: readonly (readonly [what: string, bundle: Bundle, named: object])[] = [
  ['one byte of a body', bundleOf(withEntry(part, 6, (e) => ({ ...e, bytesBase64: toBase64(bytesOf(6).map((b, i) => (i === 40 ? b ^ 1 : b))) }))), { findings: [{ seq: 6, finding: 'not-in-the-tree' }, { seq: 9 }] }],
  ['a figure in a body', bundleOf(withEntry(part, 6, (e) => ({ ...e, bytesBase64: toBase64(body(6, '99.5')) }))), { findings: [{ seq: 6, finding: 'not-in-the-tree' }, { seq: 9 }] }],
  ['an entry taken out', bundleOf(without(6)), { findings: [{ seq: 6, finding: 'left-out' }, { seq: 9 }], counts: { 'left-out': 1 } }],
  ['several taken out at the end', bundleOf({ ...part, entries: part.entries.slice(0, 7) }), { findings: [{ seq: 9 }, { seq: 11, finding: 'left-out' }], counts: { 'left-out': 3 } }],
  ['an entry beside those that it says it holds', bundleOf({ ...part, entries: [...part.entries, entryOf(20)] }), { findings: [{ seq: 9 }, { seq: 20, finding: 'out-of-place' }] }],
  ['two entries in each other’s place', bundleOf(swapped), { findings: [{ seq: 6, finding: 'not-in-the-tree' }, { seq: 7, finding: 'not-in-the-tree' }, { seq: 9 }] }],
  ['an entry in another order', bundleOf({ ...part, entries: [...part.entries.slice(1), entryOf(4)] }), { findings: [{ seq: 4, finding: 'out-of-place' }, { seq: 9 }] }],
  ['an entry twice', bundleOf({ ...part, entries: [...part.entries, entryOf(13)] }), { findings: [{ seq: 9 }, { seq: 13, finding: 'given-twice' }] }],
  ['the number of an entry', bundleOf(withEntry(part, 13, (e) => ({ ...e, seq: 14 }))), { findings: [{ seq: 9 }, { seq: 13, finding: 'left-out' }, { seq: 14, finding: 'out-of-place' }] }],
  ['the leaf of a withheld body', bundleOf(withEntry(part, 9, (e) => ({ ...e, withheldLeafHex: flipped(e.withheldLeafHex ?? '') }))), { findings: [{ seq: 9, finding: 'not-in-the-tree' }] }],
  ['a step of a proof', bundleOf(withEntry(part, 5, (e) => ({ ...e, proofHex: (e.proofHex ?? []).map((h, i) => (i === 2 ? flipped(h) : h)) }))), { findings: [{ seq: 5, finding: 'not-in-the-tree' }, { seq: 9 }] }],
  ['a step more in a proof', bundleOf(withEntry(part, 5, (e) => ({ ...e, proofHex: [...(e.proofHex ?? []), toHex(leafHash(loose))] }))), { findings: [{ seq: 5, finding: 'not-in-the-tree' }, { seq: 9 }] }],
  ['a proof in capitals', bundleOf(withEntry(part, 5, (e) => ({ ...e, proofHex: (e.proofHex ?? []).map((h) => h.toUpperCase()) }))), { findings: [{ seq: 5, finding: 'malformed' }, { seq: 9 }] }],
  ['no proof', bundleOf(withEntry(part, 5, ({ proofHex: _proof, ...e }) => e)), { findings: [{ seq: 5, finding: 'no-proof' }, { seq: 9 }] }],
  ['base64 in a loose spelling', bundleOf(withEntry(part, 5, (e) => ({ ...e, bytesBase64: `${e.bytesBase64}\n` }))), { findings: [{ seq: 5, finding: 'malformed' }, { seq: 9 }] }],
  ['a text', bundleOf(withEntry(part, 5, (e) => ({ ...e, words: [{ field: 'note', salt: salt(5), text: 'nothing of note' }] }))), { findings: [{ seq: 5, finding: 'word-differs' }, { seq: 9 }] }],
  ['the salt of a text', bundleOf(withEntry(part, 5, (e) => ({ ...e, words: [{ field: 'note', salt: salt(6), text: note(5) }] }))), { findings: [{ seq: 5, finding: 'word-differs' }, { seq: 9 }] }],
  ['a text under another field', bundleOf(withEntry(part, 5, (e) => ({ ...e, words: [{ field: 'toString', salt: salt(5), text: note(5) }] }))), { findings: [{ seq: 5, finding: 'word-differs' }, { seq: 9 }] }],
  ['a text beside a withheld body', bundleOf(withEntry(part, 9, (e) => ({ ...e, words: [{ field: 'note', salt: salt(9), text: note(9) }] }))), { findings: [{ seq: 9, finding: 'word-differs' }] }],
  ['a form that is not canonical', bundleOf({ ...part, ...odd, entries: [{ seq: 0, bytesBase64: toBase64(loose) }] }), { findings: [{ seq: 0, finding: 'not-canonical' }] }],
  ['the root of the seal', bundleOf({ ...part, checkpoint: part.checkpoint.replace(toBase64(treeOf(21).root()), toBase64(treeOf(20).root())) }), { seal: 'signature-wrong', size: null }],
  ['the size of the seal', bundleOf({ ...part, checkpoint: part.checkpoint.replace('\n21\n', '\n20\n') }), { seal: 'signature-wrong', size: null }],
  ['the signature of the seal', bundleOf({ ...part, checkpoint: part.checkpoint.replace(/(\S{8})\S(\S+)\n$/, '$1A$2\n') }), { seal: 'signature-wrong', size: null }],
  ['the signature in a second spelling (RFC 8032 §5.1.7: S is below the order)', bundleOf({ ...part, checkpoint: largerS(part.checkpoint) }), { seal: 'signature-wrong', size: null }],
  ['the key', bundleOf({ ...part, verifierKey: keyOf(undefined, otherSeed) }), { seal: 'not-signed-by-key', size: null }],
  ['a letter of the key', bundleOf({ ...part, verifierKey: part.verifierKey.replace('ledger', 'ledgen') }), { seal: 'malformed-key', size: null }],
  ['the seal by one of another key', bundleOf({ ...part, checkpoint: sealOf(21, { with: otherSeed }) }), { seal: 'not-signed-by-key', size: null }],
  ['the note’s form', bundleOf({ ...part, checkpoint: part.checkpoint.trimEnd() }), { seal: 'malformed-note', size: null }],
  ['a size cut back and sealed anew, with the seal that was later', bundleOf({ ...part, checkpoint: sealOf(16), entries: part.entries.map((e) => entryOf(e.seq, 16)), earlier: [earlierSeal(5, 16), { checkpoint: sealOf(21), proofHex: [] }] }), { seal: 'good', size: 16, earlier: [{ size: 5, finding: 'good' }, { size: 21, finding: 'history-differs' }] }],
  ['an earlier seal of another history', bundleOf({ ...part, earlier: [{ ...earlierSeal(8), checkpoint: madeUp(8) }] }), { earlier: [{ size: 8, finding: 'history-differs' }] }],
  ['an earlier seal of another history, whole', bundleOf({ ...whole, earlier: [{ checkpoint: madeUp(8) }] }), { earlier: [{ size: 8, finding: 'history-differs' }] }],
  ['an earlier seal’s proof', bundleOf({ ...part, earlier: [{ ...earlierSeal(8), proofHex: earlierSeal(5).proofHex }] }), { earlier: [{ size: 8, finding: 'history-differs' }] }],
  ['an earlier seal’s size', bundleOf({ ...part, earlier: [{ ...earlierSeal(8), checkpoint: sealOf(8).replace('\n8\n', '\n9\n') }] }), { earlier: [{ size: null, finding: 'signature-wrong' }] }],
  ['an earlier seal of another book', bundleOf({ ...part, earlier: [{ checkpoint: houseBook.checkpoint, proofHex: [] }] }), { earlier: [{ size: null, finding: 'not-signed-by-key' }] }],
  ['a body in a whole book without proofs', bundleOf({ ...whole, entries: whole.entries.map((e) => ({ seq: e.seq, bytesBase64: toBase64(body(e.seq, e.seq === 3 ? '1' : '94.5')) })) }), { wholeTree: 'differs' }],
]; // prettier-ignore

describe('a bundle that was tampered with is refused by both checkers, and the same is named', () => {
  it.each(tampered)('%s', (_what, bundle, named) => {
    const { code, report } = said(bundle);
    expect([code, report.ok]).toEqual([1, false]);
    expect(report.books[0]).toMatchObject({ ok: false, ...named });
  });

  it('made up as a whole with a key of its own, it fits itself, and not what the reader had', () => {
    const other = { checkpoint: sealOf(21, { with: otherSeed }), verifierKey: keyOf(undefined, otherSeed), earlier: [] };
    const forged = bundleOf({ ...part, ...other });
    expect(said(forged).report.ok).toBe(true);
    expect(verifyBundle(forged).says.join(' ')).toContain('could have made up a key as well');
    for (const had of [keyOf(), sealOf(8)])
      expect(said(forged, [had]).report).toMatchObject({ ok: false, held: [{ finding: 'not-here' }] });
    expect(said(forged, [toHex(Tree.over(bodies.map((b) => leafHash(b))).root())]).report).toMatchObject({
      ok: true,
      held: [{ finding: 'is-a-seal-here' }],
    });
  });
});

describe('a key that another took the place of', () => {
  const third = seed.map((byte) => byte ^ 1);
  const [one, two, three] = [keyOf(), keyOf(undefined, otherSeed), keyOf(undefined, third)];
  const change = (from: string, to: string, size: number, by: Uint8Array, more: Partial<KeyChange> = {}): string =>
    signKeyChange({ origin, type: 'handover', from, to, size, ...more }, by);
  const [first, next] = [change(one, two, 8, seed), change(two, three, 16, otherSeed)];
  const with3 = (size: number): string => sealOf(size, { with: third });
  const proven = (checkpoint: string, size: number) => ({ ...earlierSeal(size), checkpoint });
  const earlier = [proven(sealOf(8), 8), proven(sealOf(16, { with: otherSeed }), 16), proven(with3(20), 20)];
  const chained = { ...part, checkpoint: with3(21), verifierKey: three, keys: [first, next], earlier };
  const lost = change(two, three, 16, third, { type: 'lost' });

  it('is followed from the one to the other by both checkers, in the second version of the format', () => {
    const sound = bundleOf(chained, houseBook);
    expect(sound.format).toBe('ledger-bundle/2');
    for (const had of [one, two, three]) {
      const { report } = said(sound, [had]);
      expect(report).toMatchObject({ ok: true, held: [{ finding: 'is-a-key-here', origin }] });
      expect(report.books[0]).toMatchObject({
        keys: [{ size: 8, finding: 'good' }, { size: 16, finding: 'good' }], // prettier-ignore
        earlier: [8, 16, 20].map((size) => ({ size, finding: 'good' })),
      });
    }
    expect(said(bundleOf({ ...chained, checkpoint: sealOf(16, { with: otherSeed }), entries: [], count: 0, earlier: [] })).report.ok).toBe(
      true,
    );
  });

  it('of the second version stays readable: the stored one is what is made today', () => {
    const stored = path.join(import.meta.dirname, 'golden/bundle-2.json');
    const text = `${JSON.stringify(bundleOf(chained, houseBook), null, 1)}\n`;
    if (process.env['GOLDEN'] === 'write') writeFileSync(stored, text);
    expect(readFileSync(stored, 'utf8')).toBe(text);
  });

  it('is not asked about in the first version, where the member is passed over', () => {
    const old = { ...bundleOf(chained), format: 'ledger-bundle/1' as const };
    expect(said(old).report.books[0]).toMatchObject({
      seal: 'good',
      keys: [],
      earlier: [{ finding: 'not-signed-by-key' }, {}, { finding: 'good' }],
    });
  });

  const untold = { seal: 'key-not-led-to', size: null, earlier: [] };
  it.each([
    ['the statement signed by the new key in place of the old', { keys: [change(one, two, 8, otherSeed), next] }, { ...untold, keys: [{ size: 8, finding: 'not-signed-by-key' }, { size: 16, finding: 'good' }] }],
    ['the size in a statement', { keys: [first.replace('\n8\n', '\n9\n'), next] }, { ...untold, keys: [{ size: 9, finding: 'signature-wrong' }, { finding: 'good' }] }],
    ['a gap in the chain', { keys: [first, change(keyOf(undefined, third.map((b) => b ^ 2)), three, 16, third.map((b) => b ^ 2))] }, { ...untold, keys: [{ finding: 'good' }, { finding: 'does-not-follow' }] }],
    ['the end of the chain', { keys: [first] }, { ...untold, keys: [{ finding: 'does-not-follow' }] }],
    ['its order', { keys: [next, first] }, { ...untold, keys: [{ finding: 'good' }, { finding: 'does-not-follow' }] }],
    ['sizes that run back', { keys: [first, change(two, three, 7, otherSeed)] }, { ...untold, keys: [{ finding: 'good' }, { finding: 'does-not-follow' }] }],
    ['a key that comes back', { keys: [first, change(two, one, 16, otherSeed)], verifierKey: one }, { ...untold, keys: [{ finding: 'good' }, { finding: 'does-not-follow' }] }],
    ['a statement that is none', { keys: [sealOf(8), next] }, { ...untold, keys: [{ size: null, finding: 'malformed-statement' }, { finding: 'does-not-follow' }] }],
    ['a statement of another book', { keys: [signKeyChange({ origin: houseBook.name, type: 'handover', from: keyOf('House'), to: keyOf('House', otherSeed), size: 8 }, seed), next] }, { ...untold, keys: [{ finding: 'another-origin' }, { finding: 'does-not-follow' }] }],
    ['the seal by a key that was over', { checkpoint: sealOf(21) }, { seal: 'key-out-of-turn', size: null }],
    ['an earlier seal by a key that was over', { earlier: [proven(sealOf(16), 16)] }, { earlier: [{ size: null, finding: 'key-out-of-turn' }] }],
    ['an earlier seal by a key whose turn had not come', { earlier: [proven(with3(8), 8)] }, { earlier: [{ size: null, finding: 'key-out-of-turn' }] }],
    ['no statement at all', { keys: [] }, { seal: 'good', earlier: [{ finding: 'not-signed-by-key' }, { finding: 'not-signed-by-key' }, { finding: 'good' }] }],
  ])('is refused by both checkers, and the same is named: %s', (_what, more, named) => {
    const { report } = said(bundleOf({ ...chained, ...more }));
    expect(report.books[0]).toMatchObject({ ok: false, ...named });
  }); // prettier-ignore

  it('that was lost is said, and a key from before the loss proves nothing of what came later', () => {
    const broken = bundleOf({ ...chained, keys: [first, lost] });
    expect(said(broken).report.books[0]).toMatchObject({ ok: true, keys: [{ finding: 'good' }, { size: 16, finding: 'lost' }] });
    expect(said(broken, [three, sealOf(8)]).report).toMatchObject({
      ok: true,
      held: [{ finding: 'is-a-key-here' }, { finding: 'is-a-seal-here' }],
    });
    for (const had of [one, two])
      expect(said(broken, [had]).report).toMatchObject({ ok: false, held: [{ finding: 'is-a-lost-key-here' }] });
    expect(verifyBundle(broken, [one]).says.join(' ')).toMatch(/THE KEY WAS LOST after 16 entries.*it says nothing of this seal/);
    expect(
      said(bundleOf({ ...chained, keys: [first, change(two, three, 16, otherSeed, { type: 'lost' })] })).report.books[0],
    ).toMatchObject({ ...untold, keys: [{ finding: 'good' }, { finding: 'not-signed-by-key' }] });
  });
});

describe('what witnesses signed', () => {
  const [name, other] = ['witness.example/one', 'witness.example/two'];
  const key = witnessKey(name, publicKeyOf(otherSeed));
  const textOf = (size: number): string => textOfNote(sealOf(size)) ?? '';
  const line = (size: number, seconds: number): string => cosign(textOf(size), name, otherSeed, seconds);
  const cosigned = bundleOf(
    { ...part, cosignatures: [line(21, 1_764_000_000)], earlier: [{ ...earlierSeal(8), cosignatures: [line(8, 5)] }] },
    houseBook,
  );

  it('is found by its key, with the largest seal and when, by both checkers', () => {
    const { report } = said(cosigned, [key]);
    expect(report).toMatchObject({
      ok: true,
      held: [{ finding: 'is-a-witness-here', origin, cosigned: { size: 21, seconds: 1_764_000_000 } }],
    });
    // 1 764 000 000 s after 1970, by GNU date: date -u -d @1764000000
    expect(verifyBundle(cosigned, [key]).says.join(' ')).toContain('over 21 entries, at 2025-11-24 16:00 UTC by its own clock');
    const earlierAlone = bundleOf({ ...part, earlier: [{ ...earlierSeal(8), cosignatures: ['no line', line(8, 5)] }] });
    expect(said(earlierAlone, [key]).report.held).toEqual([{ finding: 'is-a-witness-here', origin, cosigned: { size: 8, seconds: 5 } }]);
  });

  it.each([
    ['of another seal', bundleOf({ ...part, cosignatures: [line(20, 5)] }), 'cosignature-wrong'],
    ['good, beside one that is not', bundleOf({ ...part, cosignatures: [line(21, 5), line(20, 6)] }), 'cosignature-wrong'],
    ['of another witness alone', bundleOf({ ...part, cosignatures: [cosign(textOf(21), other, otherSeed, 5)] }), 'not-here'],
    [
      'of an earlier seal that does not hold',
      bundleOf({ ...part, earlier: [{ ...earlierSeal(8), proofHex: [], cosignatures: [line(8, 5)] }] }),
      'not-here',
    ],
    ['none', bundleOf(part), 'not-here'],
  ])('that is %s is not taken, by both checkers', (_what, bundle, finding) => {
    expect(said(bundle, [key]).report).toMatchObject({ ok: false, held: [{ finding }] });
  });

  it('is looked for in every book', () => {
    const text = textOfNote(houseBook.checkpoint) ?? '';
    const both = bundleOf({ ...part, cosignatures: [line(21, 5)] }, { ...houseBook, cosignatures: [cosign(text, name, otherSeed, 6)] });
    expect(said(both, [key]).report.held.map((one) => one.cosigned)).toEqual([
      { size: 21, seconds: 5 },
      { size: 3, seconds: 6 },
    ]);
  });
});
