import Papa from 'papaparse';

/** What a spreadsheet may take for a formula where a cell begins with it, in either width. */
const formulaBegins = /^[=+\-@\t\r\n＝＋－＠]/;

/**
 * A table as comma-separated values (RFC 4180), with a mark by which spreadsheets know the encoding. A cell that would begin a formula begins with an
 * apostrophe instead, which a spreadsheet takes for “this is text”.
 */
export function csvOf(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const text = Papa.unparse({ fields: [...heads], data: rows.map((row) => [...row]) }, { escapeFormulae: formulaBegins, newline: '\r\n' });
  return `\ufeff${text}`;
}
