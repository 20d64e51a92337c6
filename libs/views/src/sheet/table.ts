import { plainName } from '@bakehouse/records';

/** What stands in a sheet, row by row, each cell as its text. */
export type Grid = readonly (readonly string[])[];
export const maxRows = 5_000;

/** A column that is understood, by any of its headings. */
export interface Column<K extends string> {
  readonly key: K;
  readonly headings: readonly [string, ...string[]];
}

/** Something that is wrong with a sheet: where, and what to write instead. */
export interface Wrong {
  /** The line as the sheet counts it. */
  readonly line: number;
  /** The column's letter with its heading; null where the whole line is meant. */
  readonly column: string | null;
  readonly says: string;
}
export interface Line<K extends string> {
  readonly line: number;
  readonly cell: (key: K) => string;
  readonly wrong: (key: K, says: string) => Wrong;
}
export interface Table<K extends string> {
  readonly as: 'read';
  readonly lines: readonly Line<K>[];
  /** Headings that nothing is known of: their cells are left out. */
  readonly leftOut: readonly string[];
}
export interface NoTable {
  readonly as: 'refused';
  readonly says: string;
}

/** The lines of a sheet below its headings. The name is the one column that must be there. */
export function tableOf<K extends string>(grid: Grid, columns: readonly Column<K>[], must: K): Table<K> | NoTable {
  const at = grid.findIndex((row) => row.some((cell) => cell.trim() !== ''));
  const heads = (grid[at] ?? []).map((cell) => cell.trim());
  const placed = new Map<K, number>();
  const leftOut: string[] = [];
  for (const [i, head] of heads.entries()) {
    const column = columns.find((c) => c.headings.some((h) => plainName(h) === plainName(head)));
    if (column && placed.has(column.key)) return refused(`Two columns are called “${column.headings[0]}”. Leave one of them.`);
    if (column) placed.set(column.key, i);
    else if (head !== '') leftOut.push(head);
  }
  if (!placed.has(must)) {
    const known = columns.map((c) => c.headings[0]).join(', ');
    return refused(
      `The first line has to name the columns, “${columns.find((c) => c.key === must)?.headings[0] ?? must}” among them. Known are: ${known}.`,
    );
  }
  const rows = grid.slice(at + 1);
  if (rows.length > maxRows) return refused(`The sheet has ${rows.length} lines; at most ${maxRows} are read at once. Split it.`);
  const called = (key: K): string => {
    const i = placed.get(key);
    return i === undefined ? `“${columns.find((c) => c.key === key)?.headings[0] ?? key}”` : `${letterOf(i)}, “${heads[i] ?? key}”`;
  };
  const lines = rows.flatMap((row, i): Line<K>[] => {
    const line = at + 2 + i;
    if (row.every((cell) => cell.trim() === '')) return [];
    const cell = (key: K): string => (row[placed.get(key) ?? -1] ?? '').trim();
    return [{ line, cell, wrong: (key, says) => ({ line, column: called(key), says }) }];
  });
  return { as: 'read', lines, leftOut };
}

const refused = (says: string): NoTable => ({ as: 'refused', says });

/** A column as sheets call it: A to Z, then AA. */
export const letterOf = (i: number): string => (i < 26 ? '' : letterOf(Math.floor(i / 26) - 1)) + String.fromCharCode(65 + (i % 26));
