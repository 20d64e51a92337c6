import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { anyHeader, fileEnds, formVersion, header, tableBegins, tableEnds, type BookSummary, type Header } from './form.js';
import { Heads } from './heads.js';
import { damaged, opened } from './sealed-file.js';

/** What is done with a backup while it is read. Nothing of it is certain until the reading has ended. */
export interface Reader {
  readonly begin?: (header: Header) => Promise<void> | void;
  /** Some rows of a table, a line of JSON each. */
  readonly rows?: (table: string, columns: readonly string[], lines: readonly string[]) => Promise<void> | void;
}

export interface ReadBackup {
  readonly header: Header;
  readonly books: readonly BookSummary[];
  readonly rows: number;
}

/** Reads a backup's file through: it opens with the key, nothing of it is missing or changed, and each book's entries give the root that it tells. */
export function readBackup(file: string, secret: string, reader: Reader = {}): Promise<ReadBackup> {
  return readText(opened(createReadStream(file, { highWaterMark: 1 << 20 }), secret), reader);
}

/** A table that is being read. */
interface Open {
  readonly table: string;
  readonly columns: readonly string[];
  readonly hash: ReturnType<typeof createHash>;
  count: number;
  page: string[];
  pageLength: number;
}

const pageLines = 500;
const pageCharacters = 4 * 1024 * 1024;

/** @throws with a sentence where the text is not whole */
export async function readText(text: AsyncIterable<Uint8Array>, { begin, rows }: Reader): Promise<ReadBackup> {
  const heads = new Heads();
  let head: Header | undefined;
  let ended: { readonly tables: number; readonly books: readonly BookSummary[] } | undefined;
  let open: Open | undefined;
  let [tables, total] = [0, 0];

  const flush = async (of: Open): Promise<void> => {
    const { table, columns, page } = of;
    [of.page, of.pageLength] = [[], 0];
    if (page.length === 0) return;
    heads.take(table, columns, page);
    await rows?.(table, columns, page);
  };
  for await (const line of linesOf(text)) {
    if (ended) throw new Error(damaged);
    if (!head) {
      head = headerOf(line);
      await begin?.(head);
    } else if (open && line.startsWith('[')) {
      open.hash.update(`${line}\n`);
      open.count += 1;
      open.page.push(line);
      open.pageLength += line.length;
      if (open.page.length >= pageLines || open.pageLength >= pageCharacters) await flush(open);
    } else if (open) {
      const told = tableEnds.parse(JSON.parse(line));
      await flush(open);
      if (told.rows !== open.count || told.sha256 !== open.hash.digest('hex')) throw new Error(damaged);
      total += open.count;
      open = undefined;
    } else if (line.startsWith('{"table"')) {
      open = { ...tableBegins.parse(JSON.parse(line)), hash: createHash('sha256'), count: 0, page: [], pageLength: 0 };
      tables += 1;
    } else ended = fileEnds.parse(JSON.parse(line));
  }
  if (!head || !ended || open || ended.tables !== tables) throw new Error(damaged);
  if (JSON.stringify(ended.books) !== JSON.stringify(heads.summary())) throw new Error(damaged);
  return { header: head, books: ended.books, rows: total };
}

function headerOf(line: string): Header {
  const told: unknown = JSON.parse(line);
  const any = anyHeader.safeParse(told);
  if (any.success && any.data.bakehouseBackup > formVersion)
    throw new Error('This backup was made by a newer version of this program. Restore it with that one. Nothing was changed.');
  const read = header.safeParse(told);
  if (!read.success) throw new Error(damaged);
  return read.data;
}

async function* linesOf(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  let parts: Uint8Array[] = [];
  for await (const chunk of bytes) {
    let from = 0;
    for (let end = chunk.indexOf(10); end >= 0; end = chunk.indexOf(10, from)) {
      parts.push(chunk.subarray(from, end));
      yield Buffer.concat(parts).toString('utf8');
      parts = [];
      from = end + 1;
    }
    if (from < chunk.length) parts.push(Buffer.from(chunk.subarray(from))); // the stream may use its buffer again
  }
  if (parts.length > 0) throw new Error(damaged);
}
