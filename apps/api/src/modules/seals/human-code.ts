/** Letters and figures that are not mistaken for each other: no I, L, O, U (the alphabet of Crockford's base 32). */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/**
 * The first 40 bits of a root as eight letters, `ABCD-EFGH`: short enough to say on the telephone and write on paper. It finds a seal.
 * It does not prove one: somebody with time can make another root that begins so, and for proof the whole root is compared.
 */
export function humanCode(root: Uint8Array): string {
  const bits = root.slice(0, 5).reduce((all, byte) => (all << 8n) | BigInt(byte), 0n);
  const letters = Array.from({ length: 8 }, (_, i) => alphabet.charAt(Number((bits >> BigInt(35 - 5 * i)) & 31n))).join('');
  return `${letters.slice(0, 4)}-${letters.slice(4)}`;
}
