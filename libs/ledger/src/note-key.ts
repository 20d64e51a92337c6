import { ed25519 } from '@noble/curves/ed25519.js';
import { fromBase64, toBase64 } from './base64.js';
import { sameBytes, toHex, utf8 } from './bytes.js';
import { sha256 } from './hash.js';

const ed25519Type = Uint8Array.of(1); // c2sp.org/signed-note, signature type identifier
const lineFeed = Uint8Array.of(10);

/** A public key as a note's reader knows it: its name, the four bytes that name it in a signature line, and the key. */
export interface NoteKey {
  readonly name: string;
  readonly id: Uint8Array;
  readonly publicKey: Uint8Array;
}

/** c2sp.org/signed-note: not empty, no Unicode space, no plus. Control characters cannot stand in a note at all. */
export function isKeyName(name: string): boolean {
  return /^[^\s\p{White_Space}\p{Cc}+]+$/u.test(name) && !/\p{Surrogate}/u.test(name);
}

/** First four bytes of SHA-256(name ‖ 0A ‖ 01 ‖ public key), as c2sp.org/signed-note recommends. */
export function noteKey(name: string, publicKey: Uint8Array): NoteKey {
  if (!isKeyName(name)) throw new Error('a key name is not empty and has no space and no plus');
  if (publicKey.length !== 32) throw new Error('an Ed25519 public key has 32 bytes');
  return { name, id: sha256(utf8(name), lineFeed, ed25519Type, publicKey).slice(0, 4), publicKey };
}

/** The 32-byte public key of a 32-byte Ed25519 seed (RFC 8032 §5.1.5). */
export function publicKeyOf(privateKey: Uint8Array): Uint8Array {
  return ed25519.getPublicKey(privateKey);
}

/** The text form of a public key for the person who checks a seal: `name+hex(id)+base64(01 ‖ public key)`. */
export function verifierKey(name: string, publicKey: Uint8Array): string {
  const key = noteKey(name, publicKey);
  return `${name}+${toHex(key.id)}+${toBase64(Uint8Array.of(...ed25519Type, ...publicKey))}`;
}

/** Reads a verifier key; undefined when it is not one for Ed25519, or its id does not fit its name and key. */
export function readVerifierKey(text: string): NoteKey | undefined {
  const [, name, id, material] = /^([^+]+)\+([0-9a-f]{8})\+([A-Za-z0-9+/=]+)$/.exec(text) ?? [];
  const bytes = fromBase64(material ?? '');
  if (name === undefined || !isKeyName(name) || bytes?.length !== 33 || !sameBytes(bytes.slice(0, 1), ed25519Type)) return undefined;
  const key = noteKey(name, bytes.slice(1));
  return toHex(key.id) === id ? key : undefined;
}
