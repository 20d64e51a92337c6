import { toHex } from '@bakehouse/ledger';
import { v7 } from 'uuid';

/** Where ids and salts come from. */
export interface Ids {
  /** A UUIDv7 (RFC 9562 §5.7), ordered by the instant it is given. */
  entry(at: Date): string;
  /** 16 random bytes in hex, for the commitment to one word. */
  salt(): string;
}

/** Ids from a source of random bytes. */
export function idsFrom(fill: (bytes: Uint8Array<ArrayBuffer>) => void): Ids {
  const random = (): Uint8Array => {
    const bytes = new Uint8Array(16);
    fill(bytes);
    return bytes;
  };
  return { entry: (at) => v7({ msecs: at.getTime(), random: random() }), salt: () => toHex(random()) };
}

/** `getRandomValues` is there without a secure origin too: plain HTTP inside the house must work. */
export const systemIds: Ids = idsFrom((bytes) => {
  crypto.getRandomValues(bytes);
});
