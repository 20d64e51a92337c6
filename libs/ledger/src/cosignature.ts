import { ed25519 } from '@noble/curves/ed25519.js';
import { sameBytes, utf8 } from './bytes.js';
import { publicKeyOf, readWitnessKey, witnessNoteKey } from './note-key.js';
import { signatureLine, signedBy, writeSignatureLine } from './note.js';

const timeBytes = 8;

/** c2sp.org/tlog-cosignature, Ed25519: two lines of its own, and then the text of the note. */
const cosigned = (text: string, seconds: number): Uint8Array => utf8(`cosignature/v1\ntime ${seconds}\n${text}`);

/** A witness's line over the text of a note: that by its clock this is the largest tree of that origin that it has seen. Without a line feed. */
export function cosign(text: string, witness: string, privateKey: Uint8Array, seconds: number): string {
  if (!Number.isSafeInteger(seconds) || seconds < 0) throw new RangeError('a time is whole seconds from 1970 on');
  const time = new Uint8Array(timeBytes);
  new DataView(time.buffer).setBigUint64(0, BigInt(seconds));
  const signature = Uint8Array.of(...time, ...ed25519.sign(cosigned(text, seconds), privateKey));
  return writeSignatureLine({ name: witness, id: witnessNoteKey(witness, publicKeyOf(privateKey)).id, signature });
}

export type Cosigned = { readonly is: 'good'; readonly seconds: number } | { readonly is: 'wrong' | 'of-another' };

/** Whether a line is a cosignature of the text by the witness of that key, and when by the witness's clock. Never throws. */
export function readCosignature(line: string, text: string, key: string): Cosigned {
  const [read, witness] = [signatureLine(line), readWitnessKey(key)];
  if (!read || !witness || read.name !== witness.name || !sameBytes(read.id, witness.id)) return { is: 'of-another' };
  if (read.signature.length !== timeBytes + 64) return { is: 'wrong' };
  const time = new DataView(Uint8Array.from(read.signature).buffer).getBigUint64(0);
  const seconds = Number(time);
  if (!Number.isSafeInteger(seconds) || !signedBy(witness, read.signature.slice(timeBytes), cosigned(text, seconds)))
    return { is: 'wrong' };
  return { is: 'good', seconds };
}
