import { readCheckpoint, type Checkpoint } from './checkpoint.js';
import type { KeyTurn } from './key-change.js';
import { openNote } from './note.js';
import type { SealFinding } from './report.js';

export interface OpenedSeal {
  readonly finding: SealFinding;
  readonly checkpoint?: Checkpoint;
  /** Which of the keys signed it. */
  readonly turn?: number;
}

/** A seal, by the newest of the keys that has a line in it, where it was that key's turn. */
export function openSeal(note: string, turns: readonly KeyTurn[]): OpenedSeal {
  for (let turn = turns.length - 1; turn >= 0; turn -= 1) {
    const by = turns[turn];
    const opened = by && openNote(note, by.key);
    if (!opened || (!opened.ok && opened.why === 'not-signed-by-key')) continue;
    if (!opened.ok) return { finding: opened.why };
    const checkpoint = readCheckpoint(opened.text);
    if (checkpoint === undefined) return { finding: 'malformed-checkpoint' };
    const inTurn = checkpoint.size >= by.least && checkpoint.size <= by.most;
    return inTurn ? { finding: 'good', checkpoint, turn } : { finding: 'key-out-of-turn' };
  }
  return { finding: 'not-signed-by-key' };
}

/** The seal of a book: where the statements do not lead to its key, it is not even looked at. */
export const openBookSeal = (note: string, turns: readonly KeyTurn[]): OpenedSeal =>
  turns.length === 0 ? { finding: 'key-not-led-to' } : openSeal(note, turns);
