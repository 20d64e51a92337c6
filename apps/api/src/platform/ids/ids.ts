import { createHash, randomBytes, randomInt } from 'node:crypto';

/** A version 7 UUID (RFC 9562 §5.7) of an instant and ten bytes, of which 74 bits are used. Pure. */
export function uuidv7From(at: Date, random: Uint8Array): string {
  if (random.length !== 10) throw new RangeError('ten random bytes, neither more nor fewer');
  const bytes = Buffer.alloc(16);
  bytes.writeUIntBE(at.getTime(), 0, 6);
  bytes.set(random, 6);
  bytes[6] = 0x70 | (bytes.readUInt8(6) & 0x0f);
  bytes[8] = 0x80 | (bytes.readUInt8(8) & 0x3f);
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

/** A new id that sorts by the instant it is given. */
export function uuidv7(at: Date): string {
  return uuidv7From(at, randomBytes(10));
}

/** A secret to hand out once: 256 bits unless told otherwise, in base64url. */
export function randomToken(bytes = 32): string {
  return randomBytes(bytes).toString('base64url');
}

/** So many decimal digits, all equally likely. */
export function randomDigits(count: number): string {
  return Array.from({ length: count }, () => randomInt(10)).join('');
}

/** What is stored of a token that was handed out. A token is long and random, so a plain hash is enough. */
export function tokenHash(token: string): Buffer {
  return createHash('sha256').update(token).digest();
}
