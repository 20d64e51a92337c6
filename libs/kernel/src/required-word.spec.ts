import { describe, expect, it } from '@jest/globals';
import { missingWord, saysSomething } from './required-word.js';

const entry = (text: string | null) => ({ word: () => text });

describe('a word that must be there', () => {
  it.each([null, '', ' ', '\u200b', '\u2060 \u00a0', '\u00ad', '.', '…', '- -'])('is missing where it says nothing: %j', (text) => {
    expect(saysSomething(text)).toBe(false);
    expect(missingWord(entry(text), 'reason', 'why')).toMatchObject({
      ok: false,
      problem: 'malformed',
      field: 'words.reason',
      acceptable: 'why',
    });
  });

  it.each(['a', '7', 'אופה', '烤', '🥐', '\u200bx'])('is there where it says something: %j', (text) => {
    expect(missingWord(entry(text), 'reason', 'why')).toBeUndefined();
  });
});
