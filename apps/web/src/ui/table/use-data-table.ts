import { useTable, type SortingState, type Updater } from '@tanstack/react-table';
import { useContext, useMemo, useState } from 'react';
import { AsLeft, untouched, type TableAsLeft } from './as-left';
import { definitions, features, says, type Column } from './columns';

/** So many rows a page. */
export const rowsAPage = 100;

const updated = <V>(by: Updater<V>, from: V): V => (by instanceof Function ? by(from) : by);

/** The table's state, as it was left where the list was left for one of it. */
function useAsLeft(name: string): readonly [TableAsLeft, (change: Partial<TableAsLeft>) => void] {
  const kept = useContext(AsLeft);
  const [state, setState] = useState(() => kept?.tables.get(name) ?? untouched);
  const change = (by: Partial<TableAsLeft>): void => {
    const next = { ...state, ...by };
    kept?.tables.set(name, next);
    setState(next);
  };
  return [state, change];
}

interface Wanted<T> {
  readonly name: string;
  readonly columns: readonly Column<T>[];
  readonly rows: readonly T[];
  readonly keyOf: (row: T) => string;
  /** All rows on one page, as when it is printed. */
  readonly whole: boolean;
}

/** Rows in order, those that fit what is looked for, a page at a time. */
export function useDataTable<T extends object>({ name, columns, rows, keyOf, whole }: Wanted<T>) {
  const [left, change] = useAsLeft(name);
  const pageSize = whole ? Math.max(rows.length, 1) : rowsAPage;
  const found = useMemo(
    () => (left.words.trim() === '' ? rows : rows.filter((row) => says(columns, row, left.words.trim()))),
    [columns, rows, left.words],
  );
  const pages = Math.max(1, Math.ceil(found.length / pageSize));
  const page = Math.min(left.page, pages - 1);
  const table = useTable({
    features,
    columns: useMemo(() => definitions(columns), [columns]),
    data: found,
    getRowId: keyOf,
    autoResetPageIndex: false,
    state: { sorting: left.sorting, pagination: { pageIndex: page, pageSize } },
    onSortingChange: (by: Updater<SortingState>) => change({ sorting: updated(by, left.sorting), page: 0 }),
  });
  return {
    table,
    words: left.words,
    look: (words: string) => change({ words, page: 0 }),
    page,
    pages,
    toPage: (to: number) => change({ page: to }),
    found: found.length,
    from: page * pageSize,
    to: Math.min((page + 1) * pageSize, found.length),
  };
}
