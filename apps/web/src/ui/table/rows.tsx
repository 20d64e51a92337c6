import type { Row } from '@tanstack/react-table';
import { useState, type MouseEvent, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useMayGo } from '../offered';
import type { Column, features } from './columns';

interface Props<T extends object> {
  readonly rows: readonly Row<typeof features, T>[];
  readonly columns: readonly Column<T>[];
  readonly to: ((row: T) => string) | undefined;
  readonly opened: string | undefined;
  readonly keys: ((row: T) => ReactNode) | undefined;
  readonly onOpen: (event: MouseEvent, row: T) => void;
}

/** One row a line. Its first cell is the link that opens it; Tab comes to one of them alone, arrow keys go on from there. */
export function Rows<T extends object>({ rows, columns, to, opened, keys, onOpen }: Props<T>) {
  const [last, setLast] = useState<string>();
  const tabbed = [opened, last].find((id) => rows.some((r) => r.id === id)) ?? rows[0]?.id;
  return rows.map((row) => (
    <tr role="row" key={row.id} data-open={row.id === opened ? '' : undefined} onClick={(event) => onOpen(event, row.original)}>
      {columns.map((c, i) => (
        <td
          role="cell"
          key={c.id}
          className={c.look}
          data-spare={c.spare}
          data-head={c.head}
          title={c.look === 'long' ? c.text(row.original) : undefined}
        >
          {i === 0 && to !== undefined ? (
            <Opens to={to(row.original)} row={row.id} opened={row.id === opened} tabbed={row.id === tabbed} onFocus={() => setLast(row.id)}>
              {drawn(c, row.original)}
            </Opens>
          ) : (
            drawn(c, row.original)
          )}
        </td>
      ))}
      {keys === undefined ? null : (
        <td role="cell" className="keys">
          {keys(row.original)}
        </td>
      )}
    </tr>
  ));
}

const drawn = <T,>(c: Column<T>, row: T): ReactNode => (c.shown === undefined ? c.text(row) : c.shown(row));

interface OpensProps {
  readonly to: string;
  readonly row: string;
  readonly opened: boolean;
  readonly tabbed: boolean;
  readonly onFocus: () => void;
  readonly children: ReactNode;
}

/** The way to what a row is about; where that is for others, its words alone. */
const Opens = ({ to, row, opened, tabbed, onFocus, children }: OpensProps) =>
  useMayGo(to) ? (
    <Link href={to} data-opens={row} aria-current={opened ? 'true' : undefined} tabIndex={tabbed ? 0 : -1} onFocus={onFocus}>
      {children}
    </Link>
  ) : (
    children
  );
