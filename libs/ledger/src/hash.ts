import { sha256 as nobleSha256 } from '@noble/hashes/sha2.js';
import { fromHex, toHex, utf8 } from './bytes.js';

/** SHA-256 of the parts, one after the other. A server passes its platform's own, which is several times faster. */
export type Sha256 = (...parts: readonly Uint8Array[]) => Uint8Array;

/** SHA-256 in plain JavaScript: the same in Node and in a browser, with or without a secure origin. */
export const sha256: Sha256 = (...parts) => {
  const hash = nobleSha256.create();
  for (const part of parts) hash.update(part);
  return hash.digest();
};

/** Hex SHA-256 of the salt's 16 bytes, then the text in UTF-8. Throws when the salt is not 32 hex digits: a short one could be guessed. */
export function commitment(salt: string, text: string, hash: Sha256 = sha256): string {
  if (!/^[0-9a-f]{32}$/.test(salt)) throw new Error('a salt is 16 bytes in lower-case hex');
  return toHex(hash(fromHex(salt), utf8(text)));
}

const leafPrefix = Uint8Array.of(0);
const nodePrefix = Uint8Array.of(1);

/** RFC 9162 §2.1.1: SHA-256(00 ‖ entry). */
export function leafHash(bytes: Uint8Array, hash: Sha256 = sha256): Uint8Array {
  return hash(leafPrefix, bytes);
}

/** RFC 9162 §2.1.1: SHA-256(01 ‖ left ‖ right). */
export function nodeHash(left: Uint8Array, right: Uint8Array, hash: Sha256 = sha256): Uint8Array {
  return hash(nodePrefix, left, right);
}
