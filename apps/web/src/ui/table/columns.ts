import {
  createPaginatedRowModel,
  createSortedRowModel,
  rowPaginationFeature,
  rowSortingFeature,
  tableFeatures,
  type ColumnDef,
} from '@tanstack/react-table';
import type { ReactNode } from 'react';

export interface Column<T> {
  readonly id: string;
  readonly head: string;
  /** What it says in words: shown, looked for and exported. */
  readonly text: (row: T) => string;
  /** What it is sorted by, where that is not its words; what is null comes last, whichever way it is sorted. */
  readonly by?: (row: T) => string | number | null;
  /** How it is drawn, where that is more than its words. */
  readonly shown?: (row: T) => ReactNode;
  /** long: takes the room that is left and ends with an ellipsis on the screen, whole in print. wrap: is never cut off, whatever height its row takes. */
  readonly look?: 'figure' | 'code' | 'long' | 'wrap';
  /** Left out where there is little room: on a tablet, and while something is open beside the table. */
  readonly spare?: boolean;
}

export const features = tableFeatures({
  rowSortingFeature,
  rowPaginationFeature,
  sortedRowModel: createSortedRowModel(),
  paginatedRowModel: createPaginatedRowModel(),
});

const inOrder = new Intl.Collator('en-GB', { numeric: true, sensitivity: 'base' });
type Value = string | number | undefined;

/** Figures by size, words by the alphabet with figures in them by size. */
export const compared = (a: Value, b: Value): number =>
  typeof a === 'number' && typeof b === 'number' ? a - b : inOrder.compare(String(a ?? ''), String(b ?? ''));

export const definitions = <T extends object>(columns: readonly Column<T>[]): ColumnDef<typeof features, T, unknown>[] =>
  columns.map((c) => ({
    id: c.id,
    header: c.head,
    accessorFn: (row: T): Value => (c.by === undefined ? c.text(row) : (c.by(row) ?? undefined)),
    sortFn: (a, b, id) => compared(a.getValue<Value>(id), b.getValue<Value>(id)),
    sortUndefined: 'last',
    sortDescFirst: false,
  }));

/** Whether each word that is looked for stands somewhere in a row. */
export function says<T>(columns: readonly Column<T>[], row: T, words: string): boolean {
  const text = columns
    .map((c) => c.text(row))
    .join(' ')
    .toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
