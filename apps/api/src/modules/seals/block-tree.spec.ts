import { describe, expect, it } from '@jest/globals';
import { leafHash, rootOf, sha256, toHex, Tree, utf8, verifyConsistency, verifyInclusion } from '@bakehouse/ledger';
import { BlockTree } from './block-tree.js';

const hashes = Array.from({ length: 70 }, (_, i) => leafHash(utf8(`leaf ${i}`)));
const flat = (n: number): Uint8Array => Uint8Array.from(hashes.slice(0, n).flatMap((h) => [...h]));
const hex = (proof: readonly Uint8Array[]): string[] => proof.map(toHex);

describe.each([1, 2, 4, 16, 64, 128])('a tree in blocks of %i', (block) => {
  it('gives the root and the proofs of the whole tree, for every size, leaf and beginning', () => {
    for (let size = 0; size <= hashes.length; size += 1) {
      const [blocks, whole] = [new BlockTree(flat(size), sha256, block), Tree.over(hashes.slice(0, size))];
      expect(toHex(blocks.root())).toBe(toHex(whole.root()));
      for (let i = 0; i < size; i += 1) expect(hex(blocks.inclusionProof(i))).toEqual(hex(whole.inclusionProof(i)));
      for (let from = 0; from <= size; from += 1) expect(hex(blocks.consistencyProof(from))).toEqual(hex(whole.consistencyProof(from)));
    }
  });
});

describe('proofs from blocks', () => {
  it('are taken by the verifier of RFC 9162, and no others are', () => {
    const tree = new BlockTree(flat(70), sha256, 8);
    const root = tree.root();
    const leaf = hashes[37] ?? root;
    const proof = tree.inclusionProof(37);
    expect(verifyInclusion({ index: 37, size: 70, leaf, proof, root })).toBe(true);
    expect(verifyInclusion({ index: 36, size: 70, leaf, proof, root })).toBe(false);
    for (const from of [1, 8, 12, 37, 64, 69]) {
      const claim = { from, to: 70, fromRoot: rootOf(hashes.slice(0, from)), toRoot: root, proof: tree.consistencyProof(from) };
      expect(verifyConsistency(claim)).toBe(true);
      expect(verifyConsistency({ ...claim, fromRoot: rootOf(hashes.slice(1, from + 1)) })).toBe(false);
    }
  });

  it('are not given for what is not there', () => {
    const tree = new BlockTree(flat(5), sha256, 4);
    expect(() => tree.inclusionProof(5)).toThrow(RangeError);
    expect(() => tree.consistencyProof(6)).toThrow(RangeError);
    expect(() => new BlockTree(flat(5).slice(1), sha256)).toThrow(RangeError);
    expect(() => new BlockTree(flat(5), sha256, 3)).toThrow(RangeError);
  });
});
