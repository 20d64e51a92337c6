import { useContext, useEffect, useMemo, useRef, useState, type KeyboardEvent, type MouseEvent, type ReactNode } from 'react';
import { flushSync } from 'react-dom';
import { useLocation } from 'wouter';
import { useMedia } from '../media';
import { AsLeft } from './as-left';
import type { Column } from './columns';
import { Head } from './head';
import { Rows } from './rows';
import { Tools } from './tools';
import { useDataTable } from './use-data-table';
import './table.css';

/** As wide as a tablet: a telephone shows each row as a few lines, and so all of it. */
const noRoomForAll = '(min-width: 821px) and (max-width: 1199px)';

interface Props<T> {
  /** What it lists, as a heading would say it; the file of an export is called so. */
  readonly label: string;
  /** The same ones from one drawing to the next, as long as they say the same. */
  readonly columns: readonly Column<T>[];
  readonly rows: readonly T[];
  readonly keyOf: (row: T) => string;
  /** Where a row leads; without it there is nothing to open. */
  readonly to?: (row: T) => string;
  /** The row that is open beside the table. */
  readonly opened?: string | undefined;
  /** What is said where there is nothing at all. */
  readonly none: ReactNode;
  /** What the filter box is called. */
  readonly find?: string;
  /** Keys of a row, in a last column of their own. */
  readonly keys?: (row: T) => ReactNode;
}

/** A list of the office: sorted by its heads, looked through by any word, a page at a time, exported and printed as it stands. */
export function DataTable<T extends object>({ label, columns, rows, keyOf, to, opened, none, find, keys }: Props<T>) {
  const printing = usePrinting();
  const tight = useMedia(noRoomForAll) || opened !== undefined;
  const shown = useMemo(() => (tight && !printing ? columns.filter((c) => c.spare !== true) : columns), [columns, tight, printing]);
  const { table, words, look, ...pages } = useDataTable({ name: label, columns: shown, rows, keyOf, whole: printing });
  const [, go] = useLocation();
  const body = useRef<HTMLTableSectionElement>(null);
  useFocusedAgain(body);
  if (rows.length === 0) return <p className="empty">{none}</p>;
  const all = table.getRowModel().rows;
  const open = (event: MouseEvent, row: T): void => {
    const onKey = event.target instanceof Element && event.target.closest('a, button, input, summary, label, dialog') !== null;
    if (onKey || to === undefined || window.getSelection()?.isCollapsed === false) return;
    go(to(row));
  };
  return (
    <div className="data-table">
      <Tools
        label={label}
        find={find ?? 'Find in this list'}
        words={words}
        onWords={look}
        {...pages}
        of={rows.length}
        onDown={() => moveFocus(body.current, null, 'ArrowDown')}
        cells={() => table.getSortedRowModel().rows.map((r) => columns.map((c) => c.text(r.original)))}
        heads={columns.map((c) => c.head)}
      />
      {pages.found === 0 ? (
        <p className="empty">Nothing in this list has that on it. Look for a part of the word, or empty the box.</p>
      ) : (
        <table role="table" aria-label={label} className={to === undefined ? undefined : 'opens'}>
          <Head table={table} columns={shown} keys={keys !== undefined} />
          <tbody role="rowgroup" ref={body} onKeyDown={(event) => byKey(event, body.current)}>
            <Rows rows={all} columns={shown} to={to} opened={opened} keys={keys} onOpen={open} />
          </tbody>
        </table>
      )}
    </div>
  );
}

/** Whether it is being printed: then all rows are there. */
function usePrinting(): boolean {
  const [printing, setPrinting] = useState(false);
  useEffect(() => {
    const before = (): void => flushSync(() => setPrinting(true));
    const after = (): void => setPrinting(false);
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    return () => {
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
    };
  }, []);
  return printing;
}

/** What was open has closed: the row has the focus that it was opened from. */
function useFocusedAgain(body: { readonly current: HTMLElement | null }): void {
  const kept = useContext(AsLeft);
  useEffect(() => {
    if (kept?.focus === undefined) return;
    const row = body.current?.querySelector<HTMLElement>(`[data-opens="${CSS.escape(kept.focus)}"]`);
    if (!row) return;
    kept.focus = undefined;
    row.focus();
  });
}

function byKey(event: KeyboardEvent, body: HTMLElement | null): void {
  if (!['ArrowDown', 'ArrowUp', 'Home', 'End'].includes(event.key)) return;
  if (!(event.target instanceof HTMLElement) || event.target.closest('dialog') !== null) return;
  if (moveFocus(body, event.target.closest('tr'), event.key)) event.preventDefault();
}

/** Arrow keys go from row to row, to its link or else its first key. */
function moveFocus(body: HTMLElement | null, from: Element | null, key: string): boolean {
  const rows = [...(body?.children ?? [])];
  const at = from === null ? -1 : rows.indexOf(from);
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: rows.length - 1 }[key] ?? at;
  const row = rows[to];
  const target = row?.querySelector<HTMLElement>('[data-opens]') ?? row?.querySelector<HTMLElement>('a, button');
  target?.focus();
  return target !== undefined && target !== null;
}
