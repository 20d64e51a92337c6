import type { KeyFinding } from './key-change.js';
import type { NoteFault } from './note.js';

/** `no-proof`: neither a proof was given nor all entries, so nothing can be said. FORMAT.md says when each is found. */
export type EntryFinding =
  | 'in-the-tree'
  | 'in-the-tree-body-withheld'
  | 'not-in-the-tree'
  | 'not-canonical'
  | 'word-differs'
  | 'malformed'
  | 'no-proof'
  | 'given-twice'
  | 'out-of-place'
  | 'left-out';
/** `key-not-led-to`: the statements that came along do not lead to its key; `key-out-of-turn`: that key sealed no such size. */
export type SealFinding = 'good' | NoteFault | 'malformed-checkpoint' | 'key-not-led-to' | 'key-out-of-turn';
export type EarlierFinding = SealFinding | 'another-origin' | 'history-differs' | 'no-proof';
export type HeldFinding =
  'is-a-key-here' | 'is-a-lost-key-here' | 'is-a-seal-here' | 'is-a-witness-here' | 'cosignature-wrong' | 'not-here';

export interface BookReport {
  /** Everything given of this book was checked and is as it was sealed. */
  readonly ok: boolean;
  readonly name: string;
  readonly seal: SealFinding;
  /** What is found of each statement about its keys, the oldest first. */
  readonly keys: readonly { readonly size: number | null; readonly finding: KeyFinding }[];
  readonly origin: string | null;
  readonly size: number | null;
  readonly rootHex: string | null;
  /** Where every leaf was given, whether they give the sealed root. */
  readonly wholeTree: 'fits' | 'differs' | 'not-given';
  readonly counts: Readonly<Partial<Record<EntryFinding, number>>>;
  /** Entries that are not simply in the tree, by number; of a gap its first number. */
  readonly findings: readonly { readonly seq: number; readonly finding: EntryFinding }[];
  /** Texts whose commitment was opened and fits. */
  readonly wordsOpened: number;
  readonly earlier: readonly { readonly size: number | null; readonly rootHex: string | null; readonly finding: EarlierFinding }[];
}

export interface BundleReport {
  /** Every book is as it was sealed, and all that the reader brought was found here. */
  readonly ok: boolean;
  readonly books: readonly BookReport[];
  /** What the reader had before, each with whether the bundle has it, and of which book. */
  readonly held: readonly {
    readonly finding: HeldFinding;
    readonly origin: string | null;
    /** Of a witness: the largest seal of the book that it signed, and when by its own clock, in seconds from 1970 on. */
    readonly cosigned?: { readonly size: number; readonly seconds: number };
  }[];
  /** What was checked and what that does not prove, in plain sentences. */
  readonly says: readonly string[];
}
