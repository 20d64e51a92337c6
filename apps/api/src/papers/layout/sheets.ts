import type { Cell, Row, SheetData } from 'write-excel-file/node';

/** A value of a cell. A time is a date of which the wall's figures are the UTC ones; a share is shown as a percentage and stays a number. */
export type SheetValue =
  string | number | null | { readonly time: Date } | { readonly day: string | null } | { readonly share: number | null };
export interface SheetColumn<T> {
  readonly title: string;
  readonly width: number;
  readonly of: (row: T) => SheetValue;
}
export interface Sheet {
  readonly sheet: string;
  readonly data: SheetData;
  readonly columns: { width: number }[];
  readonly stickyRowsCount: number;
  readonly orientation: 'landscape';
}

/** One sheet: a row of heads that stays in sight, then a row a thing. Numbers are numbers, dates are dates, and what is unknown is empty. */
export function sheet<T>(name: string, columns: readonly SheetColumn<T>[], rows: readonly T[]): Sheet {
  const head: Row = columns.map((c) => ({ value: c.title, type: String, fontWeight: 'bold', wrap: true, backgroundColor: '#e6e6e6' }));
  return {
    sheet: name,
    columns: columns.map(({ width }) => ({ width })),
    stickyRowsCount: 1,
    orientation: 'landscape',
    data: [head, ...rows.map((row): Row => columns.map((c) => cellOf(c.of(row))))],
  };
}

function cellOf(value: SheetValue): Cell {
  if (value === null) return null;
  if (typeof value === 'number') return { value, type: Number };
  if (typeof value === 'string') return { value: storable(value), type: String, format: '@' };
  if ('time' in value) return { value: value.time, type: Date, format: 'yyyy-mm-dd hh:mm' };
  if ('day' in value) return value.day === null ? null : { value: new Date(`${value.day}T00:00:00Z`), type: Date, format: 'yyyy-mm-dd' };
  return value.share === null ? null : { value: value.share, type: Number, format: '0.00##%' };
}

const maxInCell = 32_767; // the format's own limit

/** What XML 1.0 cannot hold is shown as the replacement character; what is too long for a cell ends with an ellipsis. */
export function storable(text: string): string {
  const clean = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd');
  return clean.length <= maxInCell ? clean : `${clean.slice(0, maxInCell - 1).replace(/[\ud800-\udbff]$/, '')}\u2026`;
}
