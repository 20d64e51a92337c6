import { breakLong, cell, type Content, type Node } from './content.js';

export interface Column<T> {
  readonly title: string;
  readonly width: number | '*' | 'auto';
  readonly of: (row: T, index: number) => Content;
  /** Figures stand to the right. */
  readonly right?: boolean;
}

/** A table that repeats its head on every page and keeps each row on one page; without rows it prints `nothing`. */
export function table<T>(columns: readonly Column<T>[], rows: readonly T[], nothing: string): Node {
  if (rows.length === 0) return { text: nothing, style: 'nothing' };
  const side = (c: Column<T>): Pick<Node, 'alignment'> => (c.right ? { alignment: 'right' } : {});
  const head = columns.map((c): Node => ({ text: c.title, style: 'head', ...side(c) }));
  const body = rows.map((row, i) =>
    columns.map((c): Content => {
      const content = c.of(row, i);
      return {
        stack: [breakLong(typeof content === 'string' ? cell(content, { style: 'cell' }) : content, longestIn(c.width))],
        ...side(c),
      };
    }),
  );
  return {
    table: { headerRows: 1, keepWithHeaderRows: 1, dontBreakRows: true, widths: columns.map((c) => c.width), body: [head, ...body] },
    layout: 'ruled',
    margin: [0, 2, 0, 10],
  };
}

/** Characters that fit beside each other in 8.5 points; a column that takes the rest is assumed to be narrow. */
const longestIn = (width: number | '*' | 'auto'): number => Math.max(6, Math.floor((typeof width === 'number' ? width : 80) / 5));

/** Lines of a cell, one below the other. */
export const lines = (texts: readonly (string | Node)[]): Node => ({
  stack: texts.map((t) => (typeof t === 'string' ? cell(t, { style: 'cell' }) : t)),
});
export const strong = (text: string): Node => cell(text, { style: ['cell', 'strong'] });
