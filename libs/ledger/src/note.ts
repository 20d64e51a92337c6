import { ed25519 } from '@noble/curves/ed25519.js';
import { fromBase64, toBase64 } from './base64.js';
import { sameBytes, utf8 } from './bytes.js';
import { isKeyName, noteKey, publicKeyOf, readVerifierKey, type NoteKey } from './note-key.js';

const maxSignatures = 100;
const dash = '\u2014';

/** One line of who signed: a name, the four bytes of a key, and what that key made. */
export interface SignatureLine {
  readonly name: string;
  readonly id: Uint8Array;
  readonly signature: Uint8Array;
}

export type NoteFault = 'malformed-note' | 'malformed-key' | 'not-signed-by-key' | 'signature-wrong';
export type OpenedNote = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: NoteFault };

/** Half a surrogate pair has no UTF-8 form; of the characters below the space only the line feed may stand in a note. */
export function isNoteText(text: string): boolean {
  return !/\p{Surrogate}/u.test(text) && ![...text].some((letter) => letter < ' ' && letter !== '\n');
}

/**
 * A note signed with an Ed25519 seed (32 bytes), in the format of c2sp.org/signed-note.
 * Throws on a text that is not one or more lines each ended by a line feed, or a key name with a space or plus.
 */
export function signNote(text: string, keyName: string, privateKey: Uint8Array): string {
  if (!isNoteText(text) || !text.endsWith('\n')) throw new Error('a note is text in lines, each ended by a line feed');
  const { id } = noteKey(keyName, publicKeyOf(privateKey));
  const signature = ed25519.sign(utf8(text), privateKey);
  return `${text}\n${writeSignatureLine({ name: keyName, id, signature })}\n`;
}

/** A line as it stands in a note, without its line feed. */
export function writeSignatureLine({ name, id, signature }: SignatureLine): string {
  return `${dash} ${name} ${toBase64(Uint8Array.of(...id, ...signature))}`;
}

/** The text of a note that nobody's signature was looked at, with its last line feed. */
export function textOfNote(note: string): string | undefined {
  const split = note.lastIndexOf('\n\n');
  return split < 0 || !isNoteText(note) ? undefined : note.slice(0, split + 1);
}

/** The text of a note, only when the key that is given signed it. Lines of other keys are passed over; one wrong line of this key refuses the note. */
export function openNote(note: string, verifierKey: string): OpenedNote {
  const key = readVerifierKey(verifierKey);
  if (key === undefined) return { ok: false, why: 'malformed-key' };
  const text = textOfNote(note);
  const lines = text === undefined ? undefined : signatureLines(note.slice(text.length + 1));
  if (text === undefined || lines === undefined) return { ok: false, why: 'malformed-note' };
  const ours = lines.filter((line) => line.name === key.name && sameBytes(line.id, key.id));
  if (ours.length === 0) return { ok: false, why: 'not-signed-by-key' };
  return ours.every((line) => signedBy(key, line.signature, utf8(text))) ? { ok: true, text } : { ok: false, why: 'signature-wrong' };
}

export function signedBy(key: NoteKey, signature: Uint8Array, message: Uint8Array): boolean {
  if (signature.length !== 64) return false;
  try {
    return ed25519.verify(signature, message, key.publicKey, { zip215: false }); // RFC 8032's own rule, the strict one
  } catch {
    return false; // the public key is no point of the curve
  }
}

function signatureLines(text: string): SignatureLine[] | undefined {
  if (!text.endsWith('\n')) return undefined;
  const lines = text.slice(0, -1).split('\n');
  if (lines.length > maxSignatures) return undefined;
  const read = lines.map(signatureLine);
  return read.every((line) => line !== undefined) ? read : undefined;
}

/** A line's parts; undefined where it is none. */
export function signatureLine(line: string): SignatureLine | undefined {
  const [mark, name, encoded, more] = line.split(' ');
  const bytes = fromBase64(encoded ?? '');
  if (mark !== dash || name === undefined || !isKeyName(name) || more !== undefined || bytes === undefined || bytes.length < 5)
    return undefined;
  return { name, id: bytes.slice(0, 4), signature: bytes.slice(4) };
}
