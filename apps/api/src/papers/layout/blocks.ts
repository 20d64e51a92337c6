import { breakLong, cell, type Content, type Node } from './content.js';

/** A heading that stays with what follows it. */
export const heading = (text: string, of: Pick<Node, 'pageBreak'> = {}): Node => ({ text, style: 'heading', headlineLevel: 1, ...of });
export const paragraph = (text: string, style = 'body'): Node => ({ text, style });
export const small = (text: string): Node => ({ text, style: 'small' });

/** Names and values beside each other. A value may be content; an empty value prints as "not known". */
export function facts(pairs: readonly (readonly [name: string, value: Content])[], nameWidth = 110): Node {
  const body = pairs.map(([name, value]) => [
    cell(name, { style: 'name' }),
    typeof value === 'string' ? breakLong(cell(value === '' ? 'not known' : value, { style: 'body' }), 70) : value,
  ]);
  return { table: { widths: [nameWidth, '*'], body }, layout: 'ruled', margin: [0, 2, 0, 8], unbreakable: true };
}

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
  layout: 'noBorders',
});

/** An empty square to tick, drawn because the typeface has none. */
export const tickBox = (size = 9): Node => ({ canvas: [{ type: 'rect', x: 0, y: 1, w: size, h: size, lineWidth: 0.8 }] });

/** A square to tick, with its word beside it. */
export const tick = (word: string): Node => ({
  columns: [
    { ...tickBox(), width: 12 },
    { text: word, style: 'cell', width: '*' },
  ],
  columnGap: 2,
});

/** A line to write on. */
export const blank = (width: number): Node => ({ canvas: [{ type: 'line', x1: 0, y1: 16, x2: width, y2: 16, lineWidth: 0.6 }] });

/** The caution that goes with every limit, verdict and recall. */
export const cautionBox = (text: string): Node => ({
  table: { widths: ['*'], body: [[{ text: [{ text: 'Caution. ', bold: true }, text], style: 'body' }]] },
  layout: 'boxed',
  margin: [0, 4, 0, 8],
});
