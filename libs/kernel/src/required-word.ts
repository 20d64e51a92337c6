import type { Entry } from './entry.js';
import { refuse, type Refused } from './problems.js';

/** Refuses an entry that lacks a word it cannot do without, such as a person's name. */
export function missingWord(entry: Pick<Entry<unknown>, 'word'>, key: string, what: string): Refused | undefined {
  return entry.word(key)?.trim() ? undefined : refuse('malformed', `words.${key}`, what);
}
