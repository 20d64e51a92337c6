import { rootOf, Tree, type Sha256 } from '@bakehouse/ledger';

/** Leaves in a block: a power of two, so that a block's root is a node of the whole tree (RFC 9162 §2.1.1). */
const usualBlock = 1024;

/**
 * Proofs over a large tree of which only the leaves' hashes are at hand, one after the other in one buffer. Only the blocks that a proof goes
 * through are built; of the others the roots are kept. Takes 32 bytes a leaf and little more.
 */
export class BlockTree {
  readonly size: number;
  private readonly top: Tree;
  private readonly blocks = new Map<number, Tree>();

  /** Throws where the buffer is no whole number of hashes, or a block is no power of two. */
  constructor(
    private readonly leaves: Uint8Array,
    private readonly hash: Sha256,
    private readonly block = usualBlock,
  ) {
    if (leaves.length % 32 !== 0) throw new RangeError('a leaf hash has 32 bytes');
    if (!isPowerOfTwo(block)) throw new RangeError('a block is a power of two');
    this.size = leaves.length / 32;
    const roots: Uint8Array[] = [];
    for (let from = 0; from < this.size; from += block) roots.push(rootOf(this.between(from, from + block), hash));
    this.top = Tree.over(roots, hash);
  }

  root(): Uint8Array {
    return this.top.root();
  }

  /** RFC 9162 §2.1.3.1. Throws when there is no such leaf. */
  inclusionProof(index: number): Uint8Array[] {
    if (!Number.isInteger(index) || index < 0 || index >= this.size)
      throw new RangeError(`there is no leaf ${index} in a tree of ${this.size}`);
    const at = Math.floor(index / this.block);
    return [...this.blockAt(at).inclusionProof(index % this.block), ...this.top.inclusionProof(at)];
  }

  /** RFC 9162 §2.1.4.1: that the first `from` leaves are the beginning of this tree. Throws unless 0 ≤ from ≤ size. */
  consistencyProof(from: number): Uint8Array[] {
    if (!Number.isInteger(from) || from < 0 || from > this.size)
      throw new RangeError(`a tree of ${this.size} has no beginning of ${from} leaves`);
    if (from === 0 || from === this.size) return [];
    const [at, within] = [Math.floor(from / this.block), from % this.block];
    if (within === 0) return this.top.consistencyProof(at);
    const block = this.blockAt(at);
    // In the first block the old root itself may be the first step, and is left out; in a later one the same node is only a part of it.
    const start = at > 0 && isPowerOfTwo(within) ? [rootOf(this.between(from - within, from), this.hash)] : [];
    return [...start, ...block.consistencyProof(within), ...this.top.inclusionProof(at)];
  }

  private blockAt(at: number): Tree {
    const found = this.blocks.get(at) ?? Tree.over([...this.between(at * this.block, (at + 1) * this.block)], this.hash);
    this.blocks.set(at, found);
    return found;
  }

  private *between(from: number, until: number): Generator<Uint8Array> {
    for (let i = from; i < Math.min(until, this.size); i += 1) yield this.leaves.subarray(i * 32, i * 32 + 32);
  }
}

const isPowerOfTwo = (n: number): boolean => Number.isInteger(n) && n > 0 && Number.isInteger(Math.log2(n));

/** Leaf hashes that stand one after the other, one by one. */
export function* hashesIn(leaves: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < leaves.length; at += 32) yield leaves.subarray(at, at + 32);
}
