import type { Entry } from './entry.js';
import { refuse, type Refused } from './refusal.js';

/** Whether a text says anything: a letter, a figure or a sign that can be seen. Spaces, also those without width, and dots say nothing. */
export const saysSomething = (text: string | null | undefined): boolean => /[\p{L}\p{N}\p{S}]/u.test(text ?? '');

/** Refuses an entry that lacks a word it cannot do without, such as a person's name. */
export function missingWord(entry: Pick<Entry<unknown>, 'word'>, key: string, what: string): Refused | undefined {
  return saysSomething(entry.word(key)) ? undefined : refuse('malformed', `words.${key}`, what);
}
