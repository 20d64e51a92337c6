import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { Content } from './content.js';
import { inTheirFaces } from './faces.js';
import { markUnprintable, typefaces, type Typefaces } from './glyphs.js';

let faces: Typefaces;
beforeAll(async () => {
  faces = await typefaces();
});

/** Every character with the typeface that it is set in; null where it has the family of what it stands in. */
function set(content: Content, family: string | null = null): { readonly letter: string; readonly font: string | null }[] {
  if (typeof content === 'string') return [...content].map((letter) => ({ letter, font: family }));
  if ('text' in content) return set(content.text ?? '', content.font ?? family);
  return Array.isArray(content) ? content.flatMap((c: Content) => set(c, family)) : [];
}
const fontsOf = (text: string): (string | null)[] => [...new Set(set(inTheirFaces(text, faces)).map((c) => c.font))];

describe('what stands in which typeface', () => {
  it.each([
    ['Pellow & Wick: 94.4 °C, ½ – “quote” … ×', [null]],
    ['kovászos őű', ['Text', 'TextMore']],
    ['Ψωμί', ['Roboto']],
    ['Хлеб љ', ['Roboto', 'Text']],
    ['bánh ặ', ['Text', 'Roboto']],
    ['≥ 93', ['Roboto', 'Text']],
  ])('%s', (text, fonts) => expect(fontsOf(text)).toEqual(fonts));

  it('is always one that has the character, whatever the name and wherever it stands; and no character is lost', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.constantFrom('Head' as const, 'Text' as const, 'Code' as const), (name, family) => {
        const { text } = markUnprintable(name, faces.any);
        const letters = set(inTheirFaces(text, faces, family), family);
        expect(letters.map((l) => l.letter).join('')).toBe(text);
        const lacking = letters.filter(({ letter, font }) => {
          const of = Object.entries(faces.of).find(([name]) => name === font)?.[1];
          return !/\s/u.test(letter) && !of?.has(letter.codePointAt(0) ?? 0);
        });
        expect(lacking).toEqual([]);
      }),
    );
  });
});
