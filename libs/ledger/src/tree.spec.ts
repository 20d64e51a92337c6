import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { fromHex, sameBytes, toHex, utf8 } from './bytes.js';
import { Frontier, rootOf } from './frontier.js';
import { leafHash, sha256 } from './hash.js';
import { Tree } from './tree.js';
import { verifyConsistency, verifyInclusion } from './verify-proofs.js';

const leaf = (i: number) => leafHash(utf8(`entry ${i}`));
const leavesOf = (size: number) => Array.from({ length: size }, (_, i) => leaf(i));
const flip = (bytes: Uint8Array, bit: number) =>
  bytes.map((byte, i) => (i === Math.floor(bit / 8) % bytes.length ? byte ^ (1 << (bit % 8)) : byte));
const sizes = fc.integer({ min: 1, max: 130 });
const bit = fc.nat(255);

/** RFC 9162 §2.1.1 word for word, for comparison: split at the largest power of two below n. */
function rootByDefinition(leaves: readonly Uint8Array[]): Uint8Array {
  const [only] = leaves;
  if (only === undefined) return sha256();
  if (leaves.length === 1) return only;
  let k = 1;
  while (k * 2 < leaves.length) k *= 2;
  return sha256(Uint8Array.of(1), rootByDefinition(leaves.slice(0, k)), rootByDefinition(leaves.slice(k)));
}

describe('tree', () => {
  it('of every size to 130 has the root of the definition, streamed, resumed from storage and built whole', () => {
    const frontier = Frontier.empty();
    for (let size = 0; size <= 130; size += 1) {
      const leaves = leavesOf(size);
      const root = toHex(rootByDefinition(leaves));
      const resumed = Frontier.from(frontier.size, frontier.toHex());
      expect([size, toHex(frontier.root()), toHex(resumed.root()), toHex(rootOf(leaves)), toHex(Tree.over(leaves).root())]).toEqual([
        size,
        root,
        root,
        root,
        root,
      ]);
      frontier.append(leaf(size));
    }
  });

  it('proves every leaf of every size to 70, with at most ⌈log₂ n⌉ hashes', () => {
    for (let size = 1; size <= 70; size += 1) {
      const tree = Tree.over(leavesOf(size));
      for (let index = 0; index < size; index += 1) {
        const proof = tree.inclusionProof(index);
        expect(proof.length).toBeLessThanOrEqual(Math.ceil(Math.log2(size)));
        expect([size, index, verifyInclusion({ index, size, leaf: leaf(index), proof, root: tree.root() })]).toEqual([size, index, true]);
      }
    }
  });

  it('proves every beginning of every size to 70', () => {
    const roots = Array.from({ length: 71 }, (_, size) => rootOf(leavesOf(size)));
    for (let to = 0; to <= 70; to += 1) {
      const tree = Tree.over(leavesOf(to));
      for (let from = 0; from <= to; from += 1) {
        const claim = { from, to, fromRoot: roots[from] ?? sha256(), toRoot: tree.root(), proof: tree.consistencyProof(from) };
        expect([from, to, verifyConsistency(claim)]).toEqual([from, to, true]);
      }
    }
  });

  it('no bit of a leaf, proof or root can be changed, nor the place', () => {
    fc.assert(
      fc.property(sizes, fc.nat(), bit, fc.nat(), (size, at, b, step) => {
        const tree = Tree.over(leavesOf(size));
        const index = at % size;
        const good = { index, size, leaf: leaf(index), proof: tree.inclusionProof(index), root: tree.root() };
        expect(verifyInclusion({ ...good, leaf: flip(good.leaf, b) })).toBe(false);
        expect(verifyInclusion({ ...good, root: flip(good.root, b) })).toBe(false);
        expect(verifyInclusion({ ...good, proof: [...good.proof, good.root] })).toBe(false);
        for (const other of [index + 1, index - 1, index + size])
          if (other !== index) expect(verifyInclusion({ ...good, index: other })).toBe(false);
        if (good.proof.length === 0) return;
        const touched = step % good.proof.length;
        expect(verifyInclusion({ ...good, proof: good.proof.map((hash, i) => (i === touched ? flip(hash, b) : hash)) })).toBe(false);
        expect(verifyInclusion({ ...good, proof: good.proof.slice(0, -1) })).toBe(false);
        expect(verifyInclusion({ ...good, proof: good.proof.slice(1) })).toBe(false);
      }),
    );
  });

  it('no bit of a beginning’s root, the end’s root or the proof between them can be changed', () => {
    fc.assert(
      fc.property(sizes, fc.nat(), bit, fc.nat(), (to, at, b, step) => {
        const from = 1 + (at % to);
        const tree = Tree.over(leavesOf(to));
        const good = { from, to, fromRoot: rootOf(leavesOf(from)), toRoot: tree.root(), proof: tree.consistencyProof(from) };
        expect(verifyConsistency(good)).toBe(true);
        expect(verifyConsistency({ ...good, fromRoot: flip(good.fromRoot, b) })).toBe(false);
        expect(verifyConsistency({ ...good, toRoot: flip(good.toRoot, b) })).toBe(false);
        expect(verifyConsistency({ ...good, proof: [...good.proof, good.toRoot] })).toBe(false);
        if (good.proof.length === 0) return;
        const touched = step % good.proof.length;
        expect(verifyConsistency({ ...good, proof: good.proof.map((hash, i) => (i === touched ? flip(hash, b) : hash)) })).toBe(false);
        expect(verifyConsistency({ ...good, proof: good.proof.slice(0, -1) })).toBe(false);
      }),
    );
  });

  it('a rewritten, dropped, added or moved leaf gives another root', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 60 }), fc.nat(), (size, at) => {
        const leaves = leavesOf(size);
        const i = at % (size - 1);
        const root = rootOf(leaves);
        const moved = leaves.map((hash, j) => (j === i ? leaf(i + 1) : j === i + 1 ? leaf(i) : hash));
        for (const other of [leaves.with(i, leaf(size)), leaves.toSpliced(i, 1), [...leaves, leaf(size)], moved])
          expect(sameBytes(rootOf(other), root)).toBe(false);
      }),
    );
  });

  it('verifies in trees beyond 2³² leaves, where shifts of 32 bits would go wrong', () => {
    const size = 2 ** 40 + 1; // one perfect subtree of 2⁴⁰ leaves and one leaf more
    const [last, subtree] = [leaf(0), leaf(1)];
    const root = sha256(Uint8Array.of(1), subtree, last);
    expect(verifyInclusion({ index: 2 ** 40, size, leaf: last, proof: [subtree], root })).toBe(true);
    expect(verifyInclusion({ index: 2 ** 40 - 1, size, leaf: last, proof: [subtree], root })).toBe(false);
    expect(verifyConsistency({ from: 2 ** 40, to: size, fromRoot: subtree, toRoot: root, proof: [last] })).toBe(true);
    const frontier = Frontier.from(2 ** 40, [toHex(subtree)]);
    frontier.append(last);
    expect([frontier.size, toHex(frontier.root())]).toEqual([size, toHex(root)]);
  });

  it('an odd size or index is answered, not thrown', () => {
    const good = { index: 0, size: 1, leaf: leaf(0), proof: [], root: leaf(0) };
    for (const n of [-1, 0.5, Number.NaN, Infinity, 2 ** 53]) {
      expect(verifyInclusion({ ...good, index: n })).toBe(false);
      expect(verifyConsistency({ from: n, to: n, fromRoot: leaf(0), toRoot: leaf(0), proof: [] })).toBe(false);
    }
    expect(verifyConsistency({ from: 0, to: 1, fromRoot: leaf(0), toRoot: leaf(1), proof: [] })).toBe(false);
    expect(verifyConsistency({ from: 0, to: 0, fromRoot: leaf(0), toRoot: leaf(0), proof: [] })).toBe(false);
  });

  it('refuses a stored frontier that does not fit its size', () => {
    const hash = toHex(leaf(0));
    for (const [size, hashes] of [
      [1, []],
      [2, [hash, hash]],
      [3, [hash]],
      [-1, []],
      [1.5, []],
      [1, ['00']],
    ] as const)
      expect(() => Frontier.from(size, hashes)).toThrow();
    expect(() => Frontier.empty().append(fromHex('00'))).toThrow('32 bytes');
    expect(() => Tree.over([leaf(0)]).inclusionProof(1)).toThrow(RangeError);
    expect(() => Tree.over([leaf(0)]).consistencyProof(2)).toThrow(RangeError);
  });
});
