/** Where ids and salts come from. */
export interface Ids {
  /** A UUIDv7 (RFC 9562 §5.7) that sorts by the instant it is given. */
  entry(at: Date): string;
  /** 16 random bytes in hex, for the commitment to one word. */
  salt(): string;
}

/** Ids from a source of random bytes. */
export function idsFrom(fill: (bytes: Uint8Array<ArrayBuffer>) => void): Ids {
  const random = (length: number): Uint8Array => {
    const bytes = new Uint8Array(length);
    fill(bytes);
    return bytes;
  };
  return { entry: (at) => uuidv7(at, random(10)), salt: () => hex(random(16)) };
}

/** `getRandomValues` is there without a secure origin too: plain HTTP inside the house must work. */
export const systemIds: Ids = idsFrom((bytes) => {
  crypto.getRandomValues(bytes);
});

const hex = (bytes: Uint8Array): string => [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');

function uuidv7(at: Date, random: Uint8Array): string {
  const bytes = new Uint8Array(16);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, Math.floor(at.getTime() / 2 ** 32));
  view.setUint32(2, at.getTime() % 2 ** 32);
  bytes.set(random, 6);
  view.setUint8(6, 0x70 | (view.getUint8(6) & 0x0f));
  view.setUint8(8, 0x80 | (view.getUint8(8) & 0x3f));
  const text = hex(bytes);
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join('-');
}
