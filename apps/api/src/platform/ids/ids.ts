import { createHash, randomBytes, randomInt } from 'node:crypto';
import { v7 } from 'uuid';

/** A version 7 UUID (RFC 9562 §5.7) of an instant and ten bytes, of which 74 bits are used. Pure. */
export function uuidv7From(at: Date, random: Uint8Array): string {
  if (random.length !== 10) throw new RangeError('ten random bytes, neither more nor fewer');
  // The library takes the first 32 of the 74 bits as a sequence of its own, and the rest from where they stand among 16 bytes.
  const bits = Buffer.from(random);
  const seq = ((bits.readUInt16BE(0) & 0x0fff) << 20) | ((bits.readUInt16BE(2) & 0x3fff) << 6) | (bits.readUInt8(4) >>> 2);
  return v7({ msecs: at.getTime(), seq, random: Buffer.concat([Buffer.alloc(6), bits]) });
}

/** A new id, ordered by the instant it is given. */
export function uuidv7(at: Date): string {
  return uuidv7From(at, randomBytes(10));
}

/** A secret to hand out once: 256 bits unless told otherwise, in base64url. */
export function randomToken(bytes = 32): string {
  return randomBytes(bytes).toString('base64url');
}

/** What a free text is salted with: 16 random bytes in hex. */
export function salt(): string {
  return randomBytes(16).toString('hex');
}

/** So many decimal digits, all equally likely. */
export function randomDigits(count: number): string {
  return Array.from({ length: count }, () => randomInt(10)).join('');
}

/** What is stored of a token that was handed out. A token is long and random, so a plain hash is enough. */
export function tokenHash(token: string): Buffer {
  return createHash('sha256').update(token).digest();
}
