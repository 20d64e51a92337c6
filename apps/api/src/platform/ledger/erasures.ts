import { erasedText, noSalt, payloadOf } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { contentOf } from './known.js';
import type { StoredEntry } from './read-entries.js';
import type { BookRef } from './types.js';

type Word = Pick<TableRow<'entryWord'>, 'text' | 'salt'>;

/** What the ledger of a book says was erased: which text of which entry, by a record that came after it. */
export class Erasures {
  private constructor(private readonly recorded: ReadonlyMap<string, number>) {}

  static async of(client: ClientBase, book: BookRef): Promise<Erasures> {
    const { rows } = await client.query<Pick<TableRow<'entry'>, 'seq'> & Pick<TableRow<'entryBody'>, 'bytes'>>(
      `SELECT e.seq, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq)
       WHERE e.organisation = $1 AND e.book = $2 AND e.kind = 'words-erased' ORDER BY e.seq`,
      [book.organisation, book.id],
    );
    const recorded = new Map<string, number>();
    for (const { seq, bytes } of rows)
      for (const { field, entries } of wordsIn(bytes)) for (const entry of entries) recorded.set(`${entry} ${field}`, seq);
    return new Erasures(recorded);
  }

  /** Whether a record says of this text that it was erased. */
  cover(e: Pick<StoredEntry, 'id' | 'seq'>, key: string): boolean {
    return (this.recorded.get(`${e.id} ${key}`) ?? -1) > e.seq;
  }
}

/** Whether nothing of a text is there any more: it is gone, or what is there is what stands in its place. */
export const isErased = ({ kind }: Pick<StoredEntry, 'kind'>, key: string, word: Word | undefined): boolean =>
  word === undefined || (word.salt === noSalt && word.text === erasedText(kind, key));

/** Bytes that were made up may be no content at all; other passes tell of them. */
function wordsIn(bytes: Uint8Array): readonly { readonly field: string; readonly entries: readonly string[] }[] {
  try {
    return payloadOf('words-erased', contentOf(bytes).input['payload'])?.words ?? [];
  } catch {
    return [];
  }
}
