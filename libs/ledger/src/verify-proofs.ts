import { sameBytes } from './bytes.js';
import { nodeHash, sha256, type Sha256 } from './hash.js';

export interface Inclusion {
  readonly index: number;
  readonly size: number;
  readonly leaf: Uint8Array;
  readonly proof: readonly Uint8Array[];
  readonly root: Uint8Array;
}
export interface Consistency {
  readonly from: number;
  readonly to: number;
  readonly fromRoot: Uint8Array;
  readonly toRoot: Uint8Array;
  readonly proof: readonly Uint8Array[];
}

const half = (n: number): number => Math.floor(n / 2); // shifts would cut sizes to 32 bits
const odd = (n: number): boolean => n % 2 === 1;
const size = (n: number): boolean => Number.isSafeInteger(n) && n >= 0;

/** The walk both algorithms share: up from the node `at` of a level whose last node is `last`, past levels where it has no right sibling. */
function climb(at: number, last: number): [number, number] {
  let [a, b] = [at, last];
  if (!odd(a)) for (; a !== 0 && !odd(a); b = half(b)) a = half(a);
  return [half(a), half(b)];
}

/** RFC 9162 §2.1.3.2: whether the leaf stands at that index of the tree with that size and root. Never throws. */
export function verifyInclusion(claim: Inclusion, hash: Sha256 = sha256): boolean {
  if (!size(claim.index) || !size(claim.size) || claim.index >= claim.size) return false;
  let [at, last, root] = [claim.index, claim.size - 1, claim.leaf];
  for (const step of claim.proof) {
    if (last === 0) return false;
    if (odd(at) || at === last) {
      root = nodeHash(step, root, hash);
      [at, last] = climb(at, last);
    } else {
      root = nodeHash(root, step, hash);
      [at, last] = [half(at), half(last)];
    }
  }
  return last === 0 && sameBytes(root, claim.root);
}

/** RFC 9162 §2.1.4.2: whether the smaller tree is the beginning of the larger one. A tree of nothing begins every tree. Never throws. */
export function verifyConsistency(claim: Consistency, hash: Sha256 = sha256): boolean {
  const { from, to, fromRoot, toRoot, proof } = claim;
  if (!size(from) || !size(to) || from > to) return false;
  if (from === to) return proof.length === 0 && sameBytes(fromRoot, toRoot) && (from !== 0 || sameBytes(fromRoot, hash()));
  if (from === 0) return proof.length === 0 && sameBytes(fromRoot, hash());
  let [at, last] = [from - 1, to - 1];
  for (; odd(at); last = half(last)) at = half(at);
  const [first, ...steps] = at === 0 ? [fromRoot, ...proof] : proof; // at is 0 exactly where `from` is a power of two
  if (first === undefined) return false;
  let [fromSide, toSide] = [first, first];
  for (const step of steps) {
    if (last === 0) return false;
    if (odd(at) || at === last) {
      fromSide = nodeHash(step, fromSide, hash);
      toSide = nodeHash(step, toSide, hash);
      [at, last] = climb(at, last);
    } else {
      toSide = nodeHash(toSide, step, hash);
      [at, last] = [half(at), half(last)];
    }
  }
  return last === 0 && sameBytes(fromSide, fromRoot) && sameBytes(toSide, toRoot);
}
