import { describe, expect, it } from '@jest/globals';
import {
  consistencyProof,
  fromHex,
  Frontier,
  inclusionProof,
  leafHash,
  nodeHash,
  rootOf,
  toHex,
  verifyConsistency,
  verifyInclusion,
} from '@bakehouse/ledger';
import { consistencies, inclusions, inputs, leafHashes, pairs, roots } from '../support/tree-vectors.js';

const leaves = inputs.map((hex) => leafHash(fromHex(hex)));
const bytes = (hex: string | undefined) => fromHex(hex ?? '');

describe('the tree of RFC 9162 on the standard test leaves', () => {
  it('has the published leaf and node hashes', () => {
    expect(leaves.map(toHex)).toEqual(leafHashes);
    expect([0, 2, 4, 6].map((i) => toHex(nodeHash(bytes(leafHashes[i]), bytes(leafHashes[i + 1]))))).toEqual(pairs);
  });

  it.each(roots.map((root, size) => [size, root]))('of size %i has the published root', (size, root) => {
    const first = leaves.slice(0, Number(size));
    const frontier = Frontier.empty();
    for (const leaf of first) frontier.append(leaf);
    expect(toHex(rootOf(first))).toBe(root);
    expect(toHex(frontier.root())).toBe(root);
  });

  it.each(inclusions)('leaf %i of %i has the published inclusion proof, and it verifies', (index, size, proof) => {
    const made = inclusionProof(leaves.slice(0, size), index);
    expect(made.map(toHex)).toEqual(proof);
    expect(verifyInclusion({ index, size, leaf: bytes(leafHashes[index]), proof: made, root: bytes(roots[size]) })).toBe(true);
  });

  it.each(consistencies)('from %i to %i has the published consistency proof, and it verifies', (from, to, proof) => {
    const made = consistencyProof(leaves.slice(0, to), from);
    expect(made.map(toHex)).toEqual(proof);
    expect(verifyConsistency({ from, to, fromRoot: bytes(roots[from]), toRoot: bytes(roots[to]), proof: made })).toBe(true);
  });

  it('a frontier stores the roots of its perfect subtrees, largest first', () => {
    const frontier = Frontier.empty();
    for (const leaf of leaves.slice(0, 7)) frontier.append(leaf);
    expect(frontier.toHex()).toEqual([roots[4], pairs[2], leafHashes[6]]);
  });
});
