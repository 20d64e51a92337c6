import { base64 } from '@scure/base';

/** Base64 of RFC 4648 §4, with padding. */
export function toBase64(bytes: Uint8Array): string {
  return base64.encode(bytes);
}

/** Bytes of a base64 string, or undefined when it is not exactly what `toBase64` writes: one value, one spelling. */
export function fromBase64(text: string): Uint8Array | undefined {
  try {
    return base64.decode(text);
  } catch {
    return undefined;
  }
}
