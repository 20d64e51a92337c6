import { fromBase64, toBase64 } from './base64.js';
import { sameBytes } from './bytes.js';
import { readCheckpoint, type Checkpoint } from './checkpoint.js';
import { readVerifierKey } from './note-key.js';
import { openNote, textOfNote } from './note.js';
import { verifyConsistency } from './verify-proofs.js';

/** What a witness is asked: to cosign a checkpoint, with the proof that it extends the one that it knows (c2sp.org/tlog-witness, add-checkpoint). */
export interface AddCheckpoint {
  readonly oldSize: number;
  readonly proof: readonly Uint8Array[];
  /** The checkpoint with the log's signature. */
  readonly note: string;
}

const maxProofLines = 63;

/** The body of the request. */
export function writeAddCheckpoint({ oldSize, proof, note }: AddCheckpoint): string {
  return `old ${oldSize}\n${proof.map((hash) => `${toBase64(hash)}\n`).join('')}\n${note}`;
}

/** Reads the body of a request; undefined where it is not exactly of that form. The note was not looked at. */
export function readAddCheckpoint(body: string): AddCheckpoint | undefined {
  const end = body.indexOf('\n\n');
  const [first = '', ...lines] = body.slice(0, Math.max(0, end)).split('\n');
  const [, digits] = /^old (0|[1-9][0-9]{0,15})$/.exec(first) ?? [];
  if (end < 0 || digits === undefined || !Number.isSafeInteger(Number(digits)) || lines.length > maxProofLines) return undefined;
  const proof = lines.map(fromBase64);
  if (!proof.every((hash) => hash?.length === 32)) return undefined;
  return { oldSize: Number(digits), proof: proof.flatMap((hash) => hash ?? []), note: body.slice(end + 2) };
}

/** What a witness answers, by the status of the answer; what it refuses because of what it has seen is evidence. */
export type Witnessed =
  | { readonly status: 200; readonly text: string; readonly checkpoint: Checkpoint }
  | { readonly status: 400 | 403 | 404 }
  | { readonly status: 409; readonly size: number; readonly evidence: boolean }
  | { readonly status: 422; readonly evidence: true };

/** Judges a request by the log keys that the witness was given and the checkpoint of that origin that it cosigned last. */
export function judgeCheckpoint(
  { oldSize, proof, note }: AddCheckpoint,
  keys: readonly string[],
  lastOf: (origin: string) => Pick<Checkpoint, 'size' | 'root'> | undefined,
): Witnessed {
  const text = textOfNote(note);
  const said = text === undefined ? undefined : readCheckpoint(text);
  if (text === undefined || said === undefined) return { status: 400 };
  const trusted = keys.filter((key) => readVerifierKey(key)?.name === said.origin);
  if (trusted.length === 0) return { status: 404 };
  if (!trusted.some((key) => openNote(note, key).ok)) return { status: 403 };
  if (oldSize > said.size) return { status: 400 };
  const last = lastOf(said.origin);
  if (oldSize !== (last?.size ?? 0)) return { status: 409, size: last?.size ?? 0, evidence: false };
  if (last !== undefined && last.size === said.size && !sameBytes(last.root, said.root))
    return { status: 409, size: last.size, evidence: true };
  const extended = last === undefined || last.size === 0 ? proof.length === 0 : extendsIt(last, said, proof);
  return extended ? { status: 200, text, checkpoint: said } : { status: 422, evidence: true };
}

function extendsIt(last: Pick<Checkpoint, 'size' | 'root'>, said: Checkpoint, proof: readonly Uint8Array[]): boolean {
  return verifyConsistency({ from: last.size, to: said.size, fromRoot: last.root, toRoot: said.root, proof });
}
