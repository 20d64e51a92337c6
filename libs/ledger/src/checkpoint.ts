import { fromBase64, toBase64 } from './base64.js';
import { isNoteText } from './note.js';

/** What a seal says of a tree: whose it is, how many leaves it has and their root. Extension lines are carried as they are. */
export interface Checkpoint {
  readonly origin: string;
  readonly size: number;
  readonly root: Uint8Array;
  readonly extensions?: readonly string[];
}

const isLine = (line: string): boolean => line !== '' && !line.includes('\n') && isNoteText(line);

/** The note text of c2sp.org/tlog-checkpoint. Throws on an empty or broken line, a size that is no whole number, or a root that has not 32 bytes. */
export function checkpointText({ origin, size, root, extensions = [] }: Checkpoint): string {
  if (!isLine(origin) || !extensions.every(isLine)) throw new Error('origin and extensions are lines that are not empty');
  if (!Number.isSafeInteger(size) || size < 0) throw new Error('a tree size is a whole number from 0');
  if (root.length !== 32) throw new Error('a root has 32 bytes');
  return [origin, size, toBase64(root), ...extensions].map((line) => `${line}\n`).join('');
}

/** Reads a checkpoint's text; undefined when it is not exactly of that form. Open the note first: unsigned text proves nothing. */
export function readCheckpoint(text: string): Checkpoint | undefined {
  const [origin, size, root, ...extensions] = text.slice(0, -1).split('\n');
  if (!text.endsWith('\n') || origin === undefined || size === undefined || root === undefined) return undefined;
  const bytes = fromBase64(root);
  if (![origin, ...extensions].every(isLine) || !/^(0|[1-9][0-9]*)$/.test(size) || bytes?.length !== 32) return undefined;
  const leaves = Number(size);
  return Number.isSafeInteger(leaves) ? { origin, size: leaves, root: bytes, extensions } : undefined;
}
