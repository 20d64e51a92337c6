import { maxRows, type Grid } from '@bakehouse/views';

export type SheetFile = { readonly as: 'grid'; readonly grid: Grid } | { readonly as: 'refused'; readonly says: string };
/** As much as a sheet of so many lines ever has. */
export const maxBytes = 5 * 1024 * 1024;
/** What it may become when it is unpacked: a small file can be made to fill any memory. */
const maxUnpacked = 64 * 1024 * 1024;

const refused = (says: string): SheetFile => ({ as: 'refused', says });
const another = 'This is no sheet that can be read. In the program that it was made with, save it as .xlsx or as CSV, and choose that.';
const begins = (bytes: Uint8Array, ...with_: readonly number[]): boolean => with_.every((b, i) => bytes[i] === b);

/** A sheet from a file, by what is in it and not by its name: the first sheet of a workbook, or comma-separated text. What reads them comes when it is needed. */
export async function sheetOf(file: Blob): Promise<SheetFile> {
  if (file.size > maxBytes) return refused('The file is larger than 5 MB. Leave out pictures and other sheets, or split it.');
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes.length === 0) return refused('The file is empty.');
  if (begins(bytes, 0x50, 0x4b, 0x03, 0x04)) return fromWorkbook(bytes);
  if (begins(bytes, 0xd0, 0xcf, 0x11, 0xe0))
    return refused('This is a workbook of an old form (.xls). Open it, save it as .xlsx or as CSV, and choose that.');
  const text = textOf(bytes);
  return text === undefined ? refused(another) : fromText(text);
}

async function fromWorkbook(bytes: Uint8Array): Promise<SheetFile> {
  const { unzipSync } = await import('fflate');
  let unpacked = 0;
  const names = new Set<string>();
  try {
    unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        unpacked += originalSize;
        names.add(name);
        return false;
      },
    });
  } catch {
    return refused('The file is damaged: it cannot be unpacked. Save it once more and choose it again.');
  }
  if (!names.has('xl/workbook.xml')) return refused(another);
  if (unpacked > maxUnpacked)
    return refused('There is more in this workbook than can be read at once. Leave out pictures and other sheets, or save it as CSV.');
  const { readSheet } = await import('read-excel-file/universal');
  try {
    const buffer = new ArrayBuffer(bytes.byteLength);
    new Uint8Array(buffer).set(bytes);
    const rows = await readSheet<string>(buffer, { parseNumber: (figure) => figure });
    return rows.length > maxRows + 50 ? tooMany(rows.length) : { as: 'grid', grid: rows.map((row) => row.map(cellText)) };
  } catch {
    return refused('The first sheet of this workbook cannot be read. Save it as CSV, and choose that.');
  }
}

const tooMany = (rows: number): SheetFile => refused(`The sheet has ${rows} lines; at most ${maxRows} are read at once. Split it.`);

/** A cell as text: a day as 2026-11-28, a figure without what a machine added behind its fifteenth digit. */
function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return cell.toISOString().slice(0, 10);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  const text = typeof cell === 'string' || typeof cell === 'number' ? String(cell) : '';
  return /^-?\d*\.\d{14,}$/.test(text) ? String(Number(Number(text).toPrecision(14))) : text;
}

/** Text in UTF-8, or UTF-16 with its mark, or as sheets on older machines write it; undefined where it is no text. */
function textOf(bytes: Uint8Array): string | undefined {
  const wide = begins(bytes, 0xff, 0xfe) ? 'utf-16le' : begins(bytes, 0xfe, 0xff) ? 'utf-16be' : undefined;
  if (wide !== undefined) return new TextDecoder(wide).decode(bytes);
  if (bytes.includes(0) || begins(bytes, 0x25, 0x50, 0x44, 0x46) || begins(bytes, 0x89, 0x50) || begins(bytes, 0xff, 0xd8))
    return undefined;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

async function fromText(text: string): Promise<SheetFile> {
  const { default: papa } = await import('papaparse');
  const { data, errors } = papa.parse<string[]>(text, {
    skipEmptyLines: false,
    preview: maxRows + 100,
    delimitersToGuess: [',', ';', '\t'],
  });
  const bad = errors.find((e) => e.type === 'Quotes');
  if (bad)
    return refused(
      `Line ${(bad.row ?? 0) + 1}: a quotation mark is opened and not closed. Put it right in the sheet and save it once more.`,
    );
  return data.length > maxRows + 50 ? tooMany(data.length) : { as: 'grid', grid: data };
}
