import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/**
 * The id of a row that an entry makes besides its own: UUIDv8 (RFC 9562) from SHA-256 of the entry's root id, a separator and `what`.
 * The same entry gives the same id on the tablet, on the server and in a rebuild.
 */
export function derivedId(root: string, what: string): string {
  const hash = sha256(utf8ToBytes(`${root}\u0000${what}`)).slice(0, 16);
  hash[6] = ((hash[6] ?? 0) & 0x0f) | 0x80;
  hash[8] = ((hash[8] ?? 0) & 0x3f) | 0x80;
  const hex = bytesToHex(hash);
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
