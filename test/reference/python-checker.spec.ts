import { spawnSync } from 'node:child_process';
import { describe, expect, it } from '@jest/globals';
import { fromHex, leafHash, noteKey, openNote, rootOf, toBase64, toHex, Tree, utf8, verifierKey } from '@bakehouse/ledger';
import { doubles } from '../support/double-vectors.js';
import { ed25519Vectors } from '../support/ed25519-vectors.js';
import { consistencies, inclusions, inputs, leafHashes, roots } from '../support/tree-vectors.js';

const python = spawnSync('python3', ['--version']).status === 0;
if (!python) process.stderr.write('There is no python3 here: the second checker was not tried on outside vectors.\n');

/** What expressions give in Python, over `v` (the checker) and `x` (one case each). Without a Python, what is expected is handed back. */
function inPython(cases: readonly unknown[], expression: string, expected: readonly unknown[]): readonly unknown[] {
  if (!python) return expected;
  const program = `import json, struct, sys; sys.path.insert(0, ${JSON.stringify(import.meta.dirname)}); sys.dont_write_bytecode = True
import verify_bundle as v
h = bytes.fromhex
print(json.dumps([${expression} for x in json.load(sys.stdin)]))`;
  const { stdout, stderr } = spawnSync('python3', ['-c', program], { input: JSON.stringify(cases), encoding: 'utf8', maxBuffer: 1 << 26 });
  if (stdout === '') throw new Error(stderr);
  return JSON.parse(stdout);
}
const yes = (cases: readonly unknown[]): true[] => cases.map(() => true);
const no = (cases: readonly unknown[]): false[] => cases.map(() => false);

describe('the checker in Python', () => {
  it('has the leaves, roots and proofs of the published tree (transparency-dev/merkle, testonly; RFC 9162 §2.1)', () => {
    expect(inPython(inputs, 'v.leaf_hash(h(x)).hex()', leafHashes)).toEqual(leafHashes);
    const sizes = roots.map((_, n) => n);
    const grown = `v.root_of([h(y) for y in ${JSON.stringify(leafHashes)}[:x]]).hex()`;
    expect(inPython(sizes, grown, roots)).toEqual(roots);
    const included = inclusions.map(([index, size, proof]) => [index, size, leafHashes[index], proof, roots[size]]);
    const includes = 'v.inclusion_verifies(x[0], x[1], h(x[2]), [h(p) for p in x[3]], h(x[4]))';
    expect(inPython(included, includes, yes(included))).toEqual(yes(included));
    const consistent = consistencies.map(([from, to, proof]) => [from, to, roots[from], roots[to], proof]);
    const extends_ = 'v.consistency_verifies(x[0], x[1], h(x[2]), h(x[3]), [h(p) for p in x[4]])';
    expect(inPython(consistent, extends_, yes(consistent))).toEqual(yes(consistent));
  });

  it('accepts every proof of every tree up to 33 leaves, and none for a neighbour, a cut or a longer one', () => {
    const leaves = Array.from({ length: 33 }, (_, i) => leafHash(utf8(`leaf ${i}`)));
    const root = (n: number): string => toHex(rootOf(leaves.slice(0, n)));
    const [good, bad]: [unknown[], unknown[]] = [[], []];
    for (let size = 1; size <= 33; size += 1) {
      const tree = Tree.over(leaves.slice(0, size));
      for (let i = 0; i < size; i += 1) {
        const proof = tree.inclusionProof(i).map(toHex);
        const claim = (index: number, p: readonly string[]) => ['in', index, size, toHex(leaves[i] ?? leafHash(utf8(''))), p, root(size)];
        good.push(claim(i, proof));
        bad.push(claim(i + 1, proof), claim(i, [...proof, root(size)]), ...(proof.length > 0 ? [claim(i, proof.slice(1))] : []));
      }
      for (let from = 0; from <= size; from += 1) {
        const proof = tree.consistencyProof(from).map(toHex);
        good.push(['from', from, size, root(from), root(size), proof]);
        bad.push(
          ['from', from, size, root(from), root(size), [...proof, root(size)]],
          ['from', from, size, root(from === 33 ? 32 : from + 1), root(size), proof],
        );
      }
    }
    const judged =
      "v.inclusion_verifies(x[1], x[2], h(x[3]), [h(p) for p in x[4]], h(x[5])) if x[0] == 'in' else v.consistency_verifies(x[1], x[2], h(x[3]), h(x[4]), [h(p) for p in x[5]])";
    expect(inPython(good, judged, yes(good))).toEqual(yes(good));
    expect(inPython(bad, judged, no(bad))).toEqual(no(bad));
  });

  it('writes numbers as RFC 8785, Appendix B, and names in the order of §3.2.3', () => {
    const written = doubles.map(([, text]) => text);
    const double = "v.number_text(struct.unpack('>d', h(x[0]))[0])";
    expect(inPython(doubles, double, written)).toEqual(written);
    const canonical = ['{"€":1,"😀":2,"\ufb33":3}', '{"\\r":1e+30,"1":[],"ö":"\\u000f\\n"}'];
    const spelt = [
      '{"\ufb33":1,"😀":2}',
      '{"a": 1}',
      '{"a":1.0}',
      '{"a":1,"a":1}',
      '{"a":"\\ud83d"}',
      '[-0]',
      'NaN',
      '[1e400]',
      '\ufeff1',
      '"\\/"',
    ];
    const is = "v.value_if_canonical(x.encode('utf-8')) is not None";
    expect(inPython(canonical, is, yes(canonical))).toEqual(yes(canonical));
    expect(inPython(spelt, is, no(spelt))).toEqual(no(spelt));
  });

  it('takes the signatures of RFC 8032 §7.1, and no changed one', () => {
    const verifies = 'v.ed25519_verifies(h(x["key"]), h(x["message"]), h(x["signature"]))';
    expect(inPython(ed25519Vectors, verifies, yes(ed25519Vectors))).toEqual(yes(ed25519Vectors));
    const changed = ed25519Vectors.flatMap((one) => [
      { ...one, message: `${one.message}00` },
      { ...one, signature: `00${one.signature.slice(2)}` },
      { ...one, key: ed25519Vectors.find((other) => other !== one)?.key },
    ]);
    expect(inPython(changed, verifies, no(changed))).toEqual(no(changed));
  });

  it('and the library refuse what RFC 8032 §5.1.7 does: a large S, a point in a second spelling; and a key of small order', () => {
    const order = 2n ** 252n + 27742317777372353535851937790883648493n;
    const little = (n: bigint): string => Buffer.from(n.toString(16).padStart(64, '0'), 'hex').reverse().toString('hex');
    const [{ key, message, signature }] = ed25519Vectors;
    const s = BigInt(`0x${Buffer.from(signature.slice(64), 'hex').reverse().toString('hex')}`);
    const text = 'text\n';
    const one = little(1n);
    const cases = [
      { key, message, signature: signature.slice(0, 64) + little(s + order) },
      { key: one, message: Buffer.from(text).toString('hex'), signature: one + little(0n) },
      { key: little(2n ** 255n - 18n), message: Buffer.from(text).toString('hex'), signature: one + little(0n) },
    ];
    const verifies = 'v.ed25519_verifies(h(x["key"]), h(x["message"]), h(x["signature"]))';
    expect(inPython(cases, verifies, no(cases))).toEqual(no(cases));
    for (const { key: publicKey, signature: signed } of cases.slice(1)) {
      const named = noteKey('k', fromHex(publicKey));
      const note = `${text}\n\u2014 k ${toBase64(Uint8Array.of(...named.id, ...fromHex(signed)))}\n`;
      expect(openNote(note, verifierKey('k', fromHex(publicKey)))).toEqual({ ok: false, why: 'signature-wrong' });
    }
  });
});
