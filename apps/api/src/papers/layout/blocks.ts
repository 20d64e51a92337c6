import { breakLong, cell, type Content, type Node } from './content.js';

/** A heading that stays with what follows it. */
export const heading = (text: string, of: Pick<Node, 'pageBreak' | 'pageOrientation' | 'id'> = {}): Node => ({
  text,
  style: 'heading',
  headlineLevel: 1,
  ...of,
});
/** A heading within something that stays whole, and goes over to the next page as one. */
export const inside = (text: string): Node => ({ text, style: 'heading' });
export const paragraph = (text: Content, style = 'body'): Node => ({ text, style, margin: [0, 0, 0, 4] });
export const small = (text: Content): Node => ({ text, style: 'small' });

/** A code that is read character by character, on one line where it is short enough for any column. */
export const code = (text: string): Node => ({ text, style: 'code', ...(text.length <= 12 ? { noWrap: true } : {}) });

/** Surely or perhaps: told apart by the word and by the line below it, on a poor copy too. */
export const sure = (certain: boolean): Node =>
  certain
    ? { text: 'certain', bold: true, decoration: 'underline' }
    : { text: 'possible', bold: true, decoration: 'underline', decorationStyle: 'dashed' };

/** Names and values beside each other. A value may be content; an empty value prints as "not known". */
export function facts(pairs: readonly (readonly [name: string, value: Content])[], nameWidth = 110): Node {
  const body = pairs.map(([name, value]) => [
    cell(name, { style: 'name' }),
    typeof value === 'string' ? breakLong(cell(value === '' ? 'not known' : value, { style: 'body' }), 70) : value,
  ]);
  return { table: { widths: [nameWidth, '*'], body }, layout: 'rows', margin: [0, 2, 0, 8], unbreakable: true };
}

/** A text that a telephone's camera reads, with the quiet margin of four modules that ISO/IEC 18004 asks for. */
export const scanned = (text: string): Node => ({ qr: text, fit: 140, eccLevel: 'M', margin: [10, 10, 10, 10] });

/** A frame that can be seen from across a table. */
export const box = (inside: readonly Content[]): Node => ({
  table: { widths: ['*'], body: [[{ stack: inside }]] },
  layout: 'boxed',
  margin: [0, 4, 0, 8],
  unbreakable: true,
});

/** Numbered lines of what to do. */
export const steps = (lines: readonly string[]): Node => ({
  table: {
    widths: [14, '*'],
    body: lines.map((line, i) => [
      { text: `${i + 1}.`, style: 'step' },
      { text: line, style: 'step' },
    ]),
  },
  layout: 'plain',
});

/** An empty square to tick, drawn because the typeface has none. */
export const tickBox = (size = 11): Node => ({ canvas: [{ type: 'rect', x: 0, y: 0, w: size, h: size, lineWidth: 0.9 }] });

/** A square to tick, with its word beside it. */
export const tick = (word: string, width: number): Node => ({
  columns: [
    { ...tickBox(), width: 14 },
    { text: word, style: 'body', width: '*' },
  ],
  columnGap: 2,
  width,
});

/** A line to write on, `height` below the top of its field. */
export const blank = (width: number, height = 16): Node => ({
  canvas: [{ type: 'line', x1: 0, y1: height, x2: width, y2: height, lineWidth: 0.7 }],
});

/** A word and a line to write on behind it. */
export const field = (name: string, width: number): Node => ({
  columns: [
    { text: name, style: 'body', width: 'auto' },
    { ...blank(width, 11), width: 'auto' },
  ],
  columnGap: 4,
  width: 'auto',
});

/** A row of such fields. */
export const fields = (...of: readonly Node[]): Node => ({ columns: of, columnGap: 12, margin: [0, 8, 0, 0] });

/** Where the scissors go. */
export const cutHere = (width: number): Node => ({
  canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: 0.9, dash: { length: 4, space: 3 } }],
  margin: [0, 10, 0, 2],
});

/** The caution that goes with every limit, verdict and recall. */
export const cautionBox = (text: string): Node => ({
  text: [{ text: 'Caution. ', bold: true }, text],
  style: 'body',
  margin: [0, 8, 0, 4],
});
