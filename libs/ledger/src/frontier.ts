import { fromHex, toHex } from './bytes.js';
import { nodeHash, sha256, type Sha256 } from './hash.js';

/** The largest tree: sizes are exact in a double up to here. */
export const maxLeaves = Number.MAX_SAFE_INTEGER;

/**
 * The right edge of a tree: the roots of its perfect subtrees, largest first, one for each 1 in the binary size.
 * All that is needed to append and to know the root, in O(log n) memory.
 */
export class Frontier {
  private constructor(
    private leaves: number,
    private readonly peaks: Uint8Array[],
    private readonly hash: Sha256,
  ) {}

  static empty(hash: Sha256 = sha256): Frontier {
    return new Frontier(0, [], hash);
  }

  /** Takes up a stored frontier. Throws when the number of hashes does not fit the size, or a hash is not 32 bytes. */
  static from(size: number, hashes: readonly string[], hash: Sha256 = sha256): Frontier {
    if (!Number.isSafeInteger(size) || size < 0) throw new Error('a tree size is a whole number from 0');
    const peaks = hashes.map(fromHex);
    if (peaks.length !== onesIn(size))
      throw new Error(`a tree of ${size} leaves has ${onesIn(size)} subtrees on its edge, not ${peaks.length}`);
    if (peaks.some((peak) => peak.length !== 32)) throw new Error('a hash has 32 bytes');
    return new Frontier(size, peaks, hash);
  }

  get size(): number {
    return this.leaves;
  }

  /** Adds a leaf's hash (see `leafHash`). */
  append(leaf: Uint8Array): void {
    if (leaf.length !== 32) throw new Error('a leaf hash has 32 bytes');
    if (this.leaves >= maxLeaves) throw new Error('the tree is full');
    let top = leaf;
    for (let rest = this.leaves; rest % 2 === 1; rest = (rest - 1) / 2) {
      const left = this.peaks.pop();
      if (left === undefined) throw new Error('the edge of the tree lacks a subtree');
      top = nodeHash(left, top, this.hash);
    }
    this.peaks.push(top);
    this.leaves += 1;
  }

  /** RFC 9162 Merkle tree head; of no leaves, SHA-256 of nothing. */
  root(): Uint8Array {
    const smallest = this.peaks.at(-1);
    if (smallest === undefined) return this.hash();
    return this.peaks.slice(0, -1).reduceRight((right, left) => nodeHash(left, right, this.hash), smallest);
  }

  /** The hashes to store beside the size, largest subtree first. */
  toHex(): string[] {
    return this.peaks.map(toHex);
  }
}

function onesIn(size: number): number {
  let ones = 0;
  for (let rest = size; rest > 0; rest = Math.floor(rest / 2)) ones += rest % 2;
  return ones;
}

/** The root over leaf hashes, read once. */
export function rootOf(leaves: Iterable<Uint8Array>, hash: Sha256 = sha256): Uint8Array {
  const frontier = Frontier.empty(hash);
  for (const leaf of leaves) frontier.append(leaf);
  return frontier.root();
}
