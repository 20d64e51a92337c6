import { nodeHash, sha256, type Sha256 } from './hash.js';

/** A whole tree in memory (about 64 bytes a leaf), for many proofs at O(log n) each. An odd node at the end of a level moves up as it is. */
export class Tree {
  private constructor(
    private readonly levels: readonly (readonly Uint8Array[])[],
    private readonly hash: Sha256,
  ) {}

  static over(leaves: readonly Uint8Array[], hash: Sha256 = sha256): Tree {
    const levels: (readonly Uint8Array[])[] = [leaves];
    for (let level = leaves; level.length > 1; levels.push(level)) level = levelAbove(level, hash);
    return new Tree(levels, hash);
  }

  get size(): number {
    return this.levels[0]?.length ?? 0;
  }

  root(): Uint8Array {
    return this.levels.at(-1)?.[0] ?? this.hash();
  }

  /** RFC 9162 §2.1.3.1, from the leaf upwards. Throws when there is no such leaf. */
  inclusionProof(index: number): Uint8Array[] {
    if (!Number.isInteger(index) || index < 0 || index >= this.size)
      throw new RangeError(`there is no leaf ${index} in a tree of ${this.size}`);
    const proof: Uint8Array[] = [];
    let at = index;
    for (const level of this.levels) {
      const sibling = level[at % 2 === 0 ? at + 1 : at - 1];
      if (sibling !== undefined) proof.push(sibling);
      at = Math.floor(at / 2);
    }
    return proof;
  }

  /** RFC 9162 §2.1.4.1: that the first `from` leaves are the beginning of this tree. Throws unless 0 ≤ from ≤ size. */
  consistencyProof(from: number): Uint8Array[] {
    if (!Number.isInteger(from) || from < 0 || from > this.size)
      throw new RangeError(`a tree of ${this.size} has no beginning of ${from} leaves`);
    const proof: Uint8Array[] = [];
    if (from === 0) return proof;
    let [low, high, whole] = [0, this.size, true];
    while (from !== high) {
      const middle = low + largestPowerBelow(high - low);
      if (from <= middle) {
        proof.push(this.subtree(middle, high));
        high = middle;
      } else {
        proof.push(this.subtree(low, middle));
        [low, whole] = [middle, false];
      }
    }
    if (!whole) proof.push(this.subtree(low, high));
    return proof.reverse();
  }

  /** The root over leaves low…high−1, where the tree's own splitting makes them a subtree. */
  private subtree(low: number, high: number): Uint8Array {
    const height = Math.ceil(Math.log2(high - low));
    const node = this.levels[height]?.[Math.floor(low / 2 ** height)];
    if (node === undefined) throw new RangeError(`leaves ${low} to ${high} are no subtree`);
    return node;
  }
}

function levelAbove(level: readonly Uint8Array[], hash: Sha256): Uint8Array[] {
  const above: Uint8Array[] = [];
  for (let i = 0; i < level.length; i += 2) {
    const [left, right] = [level[i], level[i + 1]];
    if (left !== undefined) above.push(right === undefined ? left : nodeHash(left, right, hash));
  }
  return above;
}

/** The largest power of two smaller than n, for n ≥ 2. */
function largestPowerBelow(n: number): number {
  return 2 ** (Math.ceil(Math.log2(n)) - 1);
}

/** One inclusion proof, in O(n). For several of one tree, make a `Tree`. */
export function inclusionProof(leaves: readonly Uint8Array[], index: number, hash: Sha256 = sha256): Uint8Array[] {
  return Tree.over(leaves, hash).inclusionProof(index);
}

/** One consistency proof from the first `from` leaves to all of them, in O(n). */
export function consistencyProof(leaves: readonly Uint8Array[], from: number, hash: Sha256 = sha256): Uint8Array[] {
  return Tree.over(leaves, hash).consistencyProof(from);
}
