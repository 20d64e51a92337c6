// Base64 of RFC 4648 §4, written out because the globals that do it differ between Node and browsers.
const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const valueOf = new Map([...alphabet].map((letter, value) => [letter, value]));

/** Base64 with padding. */
export function toBase64(bytes: Uint8Array): string {
  const letters: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [first = 0, second, third] = [bytes[i], bytes[i + 1], bytes[i + 2]];
    const group = (first << 16) | ((second ?? 0) << 8) | (third ?? 0);
    const four = [18, 12, 6, 0].map((shift) => alphabet.charAt((group >> shift) & 63));
    letters.push(...(second === undefined ? [...four.slice(0, 2), '=='] : third === undefined ? [...four.slice(0, 3), '='] : four));
  }
  return letters.join('');
}

/** Bytes of a base64 string, or undefined when it is not exactly what `toBase64` writes: one value, one spelling. */
export function fromBase64(text: string): Uint8Array | undefined {
  const bytes = new Uint8Array(Math.floor((text.replace(/={1,2}$/, '').length * 3) / 4));
  let [bits, held, at] = [0, 0, 0];
  for (const letter of text.replace(/={1,2}$/, '')) {
    const value = valueOf.get(letter);
    if (value === undefined) return undefined;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes[at] = (held >> bits) & 255;
      at += 1;
    }
  }
  return toBase64(bytes) === text ? bytes : undefined;
}
