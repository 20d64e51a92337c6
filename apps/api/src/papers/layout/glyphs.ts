import { otherFamily, type Family } from './families.js';

/** Printed where no typeface has a glyph for a character. */
export const markOfUnprintable = '\u25ca';

/** What we write between what was and what is: said in words where no typeface has it. */
const arrow = '\u2192';

/** Which characters each typeface has. */
export interface Typefaces {
  readonly of: Readonly<Record<Family | `${Family}More` | typeof otherFamily, ReadonlySet<number>>>;
  /** What can be printed in one or another of them. */
  readonly any: ReadonlySet<number>;
}

let known: Promise<Typefaces> | undefined;

/** What the papers' typefaces can print (Latin, Greek and Cyrillic), read from the typefaces themselves. */
export function typefaces(): Promise<Typefaces> {
  return (known ??= readTypefaces());
}

const both = (a: ReadonlySet<number>, b: ReadonlySet<number>): ReadonlySet<number> => new Set([...a].filter((letter) => b.has(letter)));

/** What draws papers is loaded with the first of them: a start, or a command that draws none, does not wait for it. */
async function readTypefaces(): Promise<Typefaces> {
  const { withTypefaces } = await import('./printing.js');
  const document = await withTypefaces().createPdf({ content: '' }).getStream();
  // a bold cut may have less than the ordinary one
  const has = (family: string): ReadonlySet<number> => {
    const [normal, bold] = [false, true].map((isBold) => new Set(document.provideFont(family, isBold, false).font.characterSet));
    return normal && bold ? both(normal, bold) : new Set();
  };
  const of = {
    Head: has('Head'),
    HeadMore: has('HeadMore'),
    Text: has('Text'),
    TextMore: has('TextMore'),
    Code: has('Code'),
    CodeMore: has('CodeMore'),
    Roboto: has(otherFamily),
  };
  // headings, text and codes are to print the same, so what one family alone has is none of it
  const all = (more: '' | 'More') => both(both(of[`Head${more}`], of[`Text${more}`]), of[`Code${more}`]);
  return { of, any: new Set([...of.Roboto, ...all(''), ...all('More')]) };
}

const segments = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Text with a visible mark for each character that cannot be printed: one for a whole emoji, so that no character is lost unnoticed. */
export function markUnprintable(text: string, has: ReadonlySet<number>): { readonly text: string; readonly marked: number } {
  const shows = (letter: string): boolean =>
    letter === '\n' || letter === ' ' || (has.has(letter.codePointAt(0) ?? 0) && !/\p{C}|\p{Zl}|\p{Zp}/u.test(letter));
  const inWords = has.has(arrow.codePointAt(0) ?? 0) ? text : text.replaceAll(` ${arrow} `, ', now ');
  const whole = inWords.normalize('NFC').replace(/\r\n?|\t/g, (space) => (space === '\t' ? ' ' : '\n'));
  if ([...whole].every(shows)) return { text: whole, marked: 0 };
  let marked = 0;
  const parts = [...segments.segment(whole)].map(({ segment }) => {
    const kept = [...segment].filter(shows).join('');
    if (kept === segment) return segment;
    marked += 1;
    return `${kept}${markOfUnprintable}`;
  });
  return { text: parts.join(''), marked };
}

/** The same for every text in plain data at any depth; the data keeps its shape. */
export function markAll<T>(content: T, has: ReadonlySet<number>): { readonly content: T; readonly marked: number } {
  let marked = 0;
  const walk = (value: unknown): unknown => {
    if (typeof value === 'string') {
      const done = markUnprintable(value, has);
      marked += done.marked;
      return done.text;
    }
    if (Array.isArray(value)) return value.map(walk);
    if (typeof value === 'object' && value !== null && !(value instanceof Date))
      return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner)]));
    return value;
  };
  return { content: walk(content) as T, marked }; // the walk changes texts and nothing else
}
