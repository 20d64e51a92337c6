/// <reference path="./pdfmake.d.ts" />

/** Printed where the typeface has no glyph for a character. */
export const markOfUnprintable = '\u25ca';

let known: Promise<ReadonlySet<number>> | undefined;

/** The characters that the papers' typeface can print (Latin, Greek and Cyrillic), read from the typeface itself. */
export function printableCharacters(): Promise<ReadonlySet<number>> {
  return (known ??= readFont());
}

/** What draws papers is loaded with the first of them: a start, or a command that draws none, does not wait for it. */
async function readFont(): Promise<ReadonlySet<number>> {
  const [{ default: pdfmake }, { default: fonts }] = await Promise.all([import('pdfmake'), import('pdfmake/fonts/Roboto.js')]);
  pdfmake.setFonts(fonts);
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((file) => Object.values(fonts.Roboto).includes(file));
  const document = await pdfmake.createPdf({ content: '' }).getStream();
  return new Set(document.provideFont('Roboto', false, false).font.characterSet);
}

const segments = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Text with a visible mark for each character that cannot be printed: one for a whole emoji, so that no character is lost unnoticed. */
export function markUnprintable(text: string, has: ReadonlySet<number>): { readonly text: string; readonly marked: number } {
  const shows = (letter: string): boolean =>
    letter === '\n' || letter === ' ' || (has.has(letter.codePointAt(0) ?? 0) && !/\p{C}|\p{Zl}|\p{Zp}/u.test(letter));
  const whole = text.normalize('NFC').replace(/\r\n?|\t/g, (space) => (space === '\t' ? ' ' : '\n'));
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
