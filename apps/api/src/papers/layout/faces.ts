import { initials, stampDrawing } from '@bakehouse/views';
import type { Content } from './content.js';
import { otherFamily, type Family } from './families.js';
import type { Typefaces } from './glyphs.js';
import { familyOfStyle } from './styles.js';

/** The same content with each run of characters in a typeface that has them, and the stamps drawn. */
export function inTheirFaces(content: Content, faces: Typefaces, family: Family = 'Text'): Content {
  if (typeof content === 'string') return runsOf(content, faces, family);
  if (isList(content)) return content.map((inner) => inTheirFaces(inner, faces, family));
  const own = familyOfStyle(content.style) ?? family;
  const inner = (of: Content): Content => inTheirFaces(of, faces, own);
  const { text, stack, columns, table, stamp, ...rest } = content;
  if (stamp !== undefined) return { ...rest, svg: stampSvg(stamp, faces) };
  return {
    ...rest,
    ...(text === undefined ? {} : { text: inner(text) }),
    ...(stack ? { stack: stack.map(inner) } : {}),
    ...(columns ? { columns: columns.map(inner) } : {}),
    ...(table ? { table: { ...table, body: table.body.map((row) => row.map(inner)) } } : {}),
  };
}

const isList = (content: Content): content is readonly Content[] => Array.isArray(content);

/** Word by word: a word of the family's own letters in its two files, any other in the other typeface, as far as that has it. */
function runsOf(text: string, faces: Typefaces, family: Family): Content {
  const base = faces.of[family];
  if ([...text].every((letter) => isBase(letter, base))) return text;
  const runs: { text: string; font: string }[] = [];
  for (const word of text.split(/(\s+)/u)) {
    const own = [...word].every((letter) => isBase(letter, base) || faces.of[`${family}More`].has(letter.codePointAt(0) ?? 0));
    for (const letter of word) {
      const font = faceOf(letter, faces, family, own);
      const last = runs.at(-1);
      if (last?.font === font) last.text += letter;
      else runs.push({ text: letter, font });
    }
  }
  return runs;
}

/** Private-use signs are of the page itself: the numbers that are put in for them have glyphs in every family. */
const isBase = (letter: string, base: ReadonlySet<number>): boolean =>
  base.has(letter.codePointAt(0) ?? 0) || /\s/u.test(letter) || /\p{Co}/u.test(letter);

function faceOf(letter: string, faces: Typefaces, family: Family, own: boolean): string {
  const code = letter.codePointAt(0) ?? 0;
  if (!own && faces.of.Roboto.has(code) && !/\s/u.test(letter)) return otherFamily;
  if (isBase(letter, faces.of[family])) return family;
  return faces.of[`${family}More`].has(code) ? `${family}More` : otherFamily;
}

function stampSvg(house: string, faces: Typefaces): string {
  const letters = initials(house);
  const own = [...letters].every((letter) => faces.of.Head.has(letter.codePointAt(0) ?? 0));
  const { ring, cuts } = stampDrawing;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 96 96"><path d="${ring}" fill="none" stroke="#000000" stroke-width="6"/><path d="${cuts}" fill="#000000"/>` +
    `<text x="46" y="63" text-anchor="middle" font-family="${own ? 'Head' : otherFamily}" font-weight="bold" font-size="34" fill="#000000">${letters}</text></svg>`
  );
}
