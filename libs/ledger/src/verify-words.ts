import type { OpenedWord } from './bundle.js';
import { jsonIn } from './canonical.js';
import { commitment, type Sha256 } from './hash.js';

const member = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, name) ? Reflect.get(value, name) : undefined;

/** Whether each text opens the commitment that stands in the entry's bytes, at `input.words` under the name of its field. */
export function wordsFit(words: readonly OpenedWord[], bytes: Uint8Array, hash: Sha256): boolean {
  if (words.length === 0) return true;
  const committed = member(member(jsonIn(bytes), 'input'), 'words');
  return words.every(({ field, salt, text }) => {
    try {
      return member(committed, field) === commitment(salt, text, hash);
    } catch {
      return false; // a salt that is none, or half a surrogate pair
    }
  });
}
