import type { ClientBase } from 'pg';
import type { Columns, Maybe, TableRow } from '../database/index.js';
import { besideColumns, type Beside } from './beside.js';
import type { BookRef } from './types.js';

type Entry = TableRow<'entry'>;
type EntryWord = TableRow<'entryWord'>;
/** An entry as it is stored; its bytes are null where retention has withheld the body. */
export interface StoredEntry
  extends
    Beside,
    Columns<Pick<Entry, 'seq' | 'id' | 'root' | 'kind' | 'leaf' | 'inputHash' | 'recordedAt'>>,
    Maybe<Pick<TableRow<'entryBody'>, 'bytes'>> {}

const besideOfEntry = besideColumns.map((c) => `e.${c}`).join(', ');

/** The entries of a book in order, a page at a time, from a sequence number on. */
export async function* pagesOf(client: ClientBase, book: BookRef, from = 0, pageSize = 2000): AsyncGenerator<readonly StoredEntry[]> {
  for (let next = from; ;) {
    const { rows } = await client.query<StoredEntry>({
      name: 'page of entries',
      text: `SELECT e.seq, e.id, e.root, e.kind, e.leaf, e.input_hash, e.recorded_at, ${besideOfEntry}, b.bytes
             FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
             WHERE e.organisation = $1 AND e.book = $2 AND e.seq >= $3 ORDER BY e.seq LIMIT $4`,
      values: [book.organisation, book.id, next, pageSize],
    });
    const last = rows.at(-1);
    if (!last) return;
    yield rows;
    next = last.seq + 1;
  }
}

export type Words = Map<string, Record<string, Pick<EntryWord, 'text' | 'salt'>>>;

/** The words of these entries that are still there, by entry. */
export async function wordsOf(client: ClientBase, book: BookRef, entries: readonly string[]): Promise<Words> {
  const { rows } = await client.query<Pick<EntryWord, 'entry' | 'key' | 'text' | 'salt'>>({
    name: 'words of entries',
    text: 'SELECT entry, key, text, salt FROM entry_word WHERE organisation = $1 AND entry = ANY($2)',
    values: [book.organisation, entries],
  });
  const words: Words = new Map();
  for (const { entry, key, text, salt } of rows) words.set(entry, { ...words.get(entry), [key]: { text, salt } });
  return words;
}
