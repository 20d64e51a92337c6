import { inflateRawSync } from 'node:zlib';
import { Piscina } from 'piscina';
import type { Caller } from './people.js';

export interface Page {
  readonly text: string;
  readonly width: number;
  readonly items: readonly { readonly text: string; readonly x: number; readonly width: number; readonly upright: boolean }[];
}

export interface FilledPage {
  readonly width: number;
  readonly height: number;
  /** Left, upper, right and lower edge. */
  readonly filled: readonly { readonly colour: string; readonly at: readonly number[] }[];
}

const inThread = {
  filename: new URL('pdf-pages.mjs', import.meta.url).href,
  minThreads: 0,
  maxThreads: 1,
  idleTimeout: Infinity,
  execArgv: [],
};
const reader = new Piscina<Buffer, Page[]>({ ...inThread, name: 'pagesOf' });
const filledReader = new Piscina<Buffer, FilledPage[]>({ ...inThread, name: 'filledOf' });

/** The pages of a PDF as an independent reader finds them. */
export const pagesOf = (pdf: Buffer): Promise<Page[]> => reader.run(pdf);
/** What is filled on each page, in points from its upper left corner. */
export const filledOf = (pdf: Buffer): Promise<FilledPage[]> => filledReader.run(pdf);

export interface SheetCell {
  readonly type: 'text' | 'number' | 'date' | 'empty';
  readonly value: string | number | null;
}
export interface ReadSheet {
  readonly name: string;
  readonly frozenRows: number;
  readonly head: readonly string[];
  readonly rows: readonly (readonly SheetCell[])[];
}

/** A spreadsheet as ECMA-376 says it is read: shared strings, numbers, and numbers whose format makes them dates. */
export function sheetsOf(xlsx: Buffer): ReadSheet[] {
  const files = unzip(xlsx);
  const file = (name: string): string => files.get(name)?.toString('utf8') ?? '';
  const strings = [...file('xl/sharedStrings.xml').matchAll(/<si>(.*?)<\/si>/gs)].map(([, si = '']) =>
    plain([...si.matchAll(/<t[^>]*>(.*?)<\/t>/gs)].map(([, t = '']) => t).join('')),
  );
  const styles = file('xl/styles.xml');
  const formats = new Map(
    [...styles.matchAll(/<numFmt numFmtId="(\d+)" formatCode="([^"]*)"/g)].map(([, id = '', code = '']) => [id, code]),
  );
  const [, cellFormats = ''] = /<cellXfs[^>]*>(.*?)<\/cellXfs>/s.exec(styles) ?? [];
  const isDate = [...cellFormats.matchAll(/<xf\b([^>]*)>/g)].map(([, of = '']) =>
    /y/.test(formats.get(/numFmtId="(\d+)"/.exec(of)?.[1] ?? '') ?? ''),
  );
  const names = [...file('xl/workbook.xml').matchAll(/<sheet [^>]*name="([^"]*)"/g)].map(([, name = '']) => plain(name));
  return names.map((name, i) => {
    const xml = file(`xl/worksheets/sheet${i + 1}.xml`);
    const rows = [...xml.matchAll(/<row [^>]*?(?:\/>|>(.*?)<\/row>)/gs)].map(([, row = '']) => cellsOf(row, strings, isDate));
    const [head = [], ...rest] = rows;
    const titles = head.map((c) => String(c.value));
    return {
      name,
      frozenRows: /state="frozen"/.test(xml) ? Number(/ySplit="(\d+)"/.exec(xml)?.[1] ?? 0) : 0,
      head: titles,
      rows: rest.map((r) => titles.map((_, at) => r[at] ?? { type: 'empty', value: null })),
    };
  });
}

function cellsOf(row: string, strings: readonly string[], isDate: readonly boolean[]): SheetCell[] {
  const cells: SheetCell[] = [];
  for (const [, attributes = '', inside = ''] of row.matchAll(/<c\b([^>]*?)(?:\/>|>(.*?)<\/c>)/gs)) {
    const at = columnOf(/r="([A-Z]+)/.exec(attributes)?.[1] ?? 'A');
    const value = /<v>(.*?)<\/v>/s.exec(inside)?.[1];
    if (value === undefined) continue;
    const style = Number(/s="(\d+)"/.exec(attributes)?.[1] ?? 0);
    cells[at] = /t="s"/.test(attributes)
      ? { type: 'text', value: strings[Number(value)] ?? '' }
      : { type: isDate[style] ? 'date' : 'number', value: Number(value) };
  }
  return cells;
}

const columnOf = (letters: string): number => [...letters].reduce((n, l) => n * 26 + l.charCodeAt(0) - 64, 0) - 1;
const plain = (xml: string): string =>
  xml
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&apos;|&#39;/g, "'")
    .replace(/&amp;/g, '&');

/** An Excel serial number (days since 30 December 1899) as figures on the wall. */
export const wallOf = (serial: number): string => new Date(Math.round((serial - 25_569) * 86_400_000)).toISOString().slice(0, 16);

function unzip(zip: Buffer): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  const end = zip.lastIndexOf(Buffer.from('PK\u0005\u0006', 'latin1'));
  let at = zip.readUInt32LE(end + 16);
  for (let n = zip.readUInt16LE(end + 10); n > 0; n -= 1) {
    const [method, size, nameLength] = [zip.readUInt16LE(at + 10), zip.readUInt32LE(at + 20), zip.readUInt16LE(at + 28)];
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const bytes = zip.subarray(start, start + size);
    files.set(zip.toString('utf8', at + 46, at + 46 + nameLength), method === 8 ? inflateRawSync(bytes) : bytes);
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return files;
}

/** A file that the service hands out, with its headers. */
export async function fileFrom(
  caller: Pick<Caller, 'get'>,
  path: string,
): Promise<{ readonly bytes: Buffer; readonly headers: Readonly<Record<string, string>> }> {
  const { body, headers } = await caller
    .get(path)
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => done(null, Buffer.concat(parts)));
    })
    .expect(200);
  return { bytes: body as Buffer, headers }; // the parser above gives one
}
