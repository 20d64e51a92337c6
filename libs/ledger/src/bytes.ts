import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';

/** Lower-case hexadecimal. */
export function toHex(bytes: Uint8Array): string {
  return bytesToHex(bytes);
}

/** Bytes of a hexadecimal string. Throws when it has an odd length or another character. */
export function fromHex(hex: string): Uint8Array {
  return hexToBytes(hex);
}

/** UTF-8 bytes. Throws on half a surrogate pair, which an encoder would silently replace, so that two texts would give the same bytes. */
export function utf8(text: string): Uint8Array {
  if (/\p{Surrogate}/u.test(text)) throw new Error('half a surrogate pair has no UTF-8 form');
  return utf8ToBytes(text);
}

/** Whether two byte strings are the same. Not constant in time: everything compared here is public. */
export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
