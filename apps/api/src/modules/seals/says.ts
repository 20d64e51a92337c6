import { readKeyChange, textOfNote } from '@bakehouse/ledger';
import type { BookKeys } from './book-keys.js';

/** Stands with every seal, on screen and on paper: what it is worth, how to check it, and where that ends. */
export const sealSays: readonly string[] = [
  'The root is one hash over every record of the book, in order (RFC 9162). Change, leave out, add or move one, and the root is another.',
  'To check: ask for the records of a period with their proofs, and hold them against this note and a key that you had before, with verify.html, which works from disk without a network, or with any program that follows its format.',
  'It proves nothing about what was written before the seal left the house: the person who runs the computer can rewrite everything and seal that, and it verifies. ' +
    'So keep this paper, or the root, somewhere else. What comes later can then be shown to begin with what was sealed here.',
  'It does not show that what was recorded is true.',
];

/** Stands with the public key. */
export const keySays: readonly string[] = [
  'Write this key down when you first have it, or compare it with one on an older paper. A key that comes together with what it is to check proves nothing.',
];

/** Stands with a seal of a book whose key was changed, and loudly where one was lost. */
export const changesSay = ({ statements }: BookKeys): readonly string[] =>
  statements.map((note) => {
    const change = readKeyChange(textOfNote(note) ?? '');
    if (change === undefined) return 'What was said of the keys of this book cannot be read: ask for a verification of the records.';
    return change.type === 'lost'
      ? `THE KEY FOR SEALS WAS LOST after ${change.size} records. Nothing that was signed before vouches for the key after it: compare that one with the house in person, and rely on seals from before only where you had them before.`
      : `The key for seals was changed after ${change.size} records; the key before signed that. A bundle holds the statement, and the verifier follows it from a key that you had before.`;
  });
