import { ed25519 } from '@noble/curves/ed25519.js';
import { fromBase64, toBase64 } from './base64.js';
import { toHex, utf8 } from './bytes.js';
import { sha256 } from './hash.js';

/** Signature type identifiers of c2sp.org/signed-note: of a log's own signature, and of a witness's cosignature (c2sp.org/tlog-cosignature). */
const [ed25519Type, cosignatureType] = [1, 4] as const;
type KeyType = typeof ed25519Type | typeof cosignatureType;
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

/** First four bytes of SHA-256(name ‖ 0A ‖ type ‖ public key), as c2sp.org/signed-note recommends. */
export function noteKey(name: string, publicKey: Uint8Array, type: KeyType = ed25519Type): NoteKey {
  if (!isKeyName(name)) throw new Error('a key name is not empty and has no space and no plus');
  if (publicKey.length !== 32) throw new Error('an Ed25519 public key has 32 bytes');
  return { name, id: sha256(utf8(name), lineFeed, Uint8Array.of(type), publicKey).slice(0, 4), publicKey };
}

/** The 32-byte public key of a 32-byte Ed25519 seed (RFC 8032 §5.1.5). */
export function publicKeyOf(privateKey: Uint8Array): Uint8Array {
  return ed25519.getPublicKey(privateKey);
}

function textOf(name: string, publicKey: Uint8Array, type: KeyType): string {
  return `${name}+${toHex(noteKey(name, publicKey, type).id)}+${toBase64(Uint8Array.of(type, ...publicKey))}`;
}

function read(text: string, type: KeyType): NoteKey | undefined {
  const [, name, id, material] = /^([^+]+)\+([0-9a-f]{8})\+([A-Za-z0-9+/=]+)$/.exec(text) ?? [];
  const bytes = fromBase64(material ?? '');
  if (name === undefined || !isKeyName(name) || bytes?.length !== 33 || bytes[0] !== type) return undefined;
  const key = noteKey(name, bytes.slice(1), type);
  return toHex(key.id) === id ? key : undefined;
}

/** The text form of a public key for the person who checks a seal: `name+hex(id)+base64(01 ‖ public key)`. */
export function verifierKey(name: string, publicKey: Uint8Array): string {
  return textOf(name, publicKey, ed25519Type);
}

/** Reads a verifier key; undefined when it is not one for Ed25519, or its id does not fit its name and key. */
export function readVerifierKey(text: string): NoteKey | undefined {
  return read(text, ed25519Type);
}

/** The same of a witness: `name+hex(id)+base64(04 ‖ public key)`. */
export function witnessKey(name: string, publicKey: Uint8Array): string {
  return textOf(name, publicKey, cosignatureType);
}

export function readWitnessKey(text: string): NoteKey | undefined {
  return read(text, cosignatureType);
}

/** What a witness's signature line names it by. */
export function witnessNoteKey(name: string, publicKey: Uint8Array): NoteKey {
  return noteKey(name, publicKey, cosignatureType);
}
