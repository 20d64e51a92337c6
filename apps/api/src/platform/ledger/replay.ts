import { WorkingSet, type Change, type Dirty } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Maybe, TableRow } from '../database/index.js';
import { extendChain, originOf, readStored, type Chain, type Stored } from './known.js';
import { pagesOf, wordsOf, type StoredEntry } from './read-entries.js';
import type { BookRef } from './types.js';

/**
 * Makes a book's rows again from its stored bytes alone: `rows` only, never `decide`. Hands each page's changes on in order.
 *
 * Of withheld bodies there is one rule: what an entry took away stays away, and what only a withheld body could tell is not there.
 * - A withdrawal takes away its chain's rows, and a correction those that it replaces, whether or not its own body is withheld: that it was one
 *   stands in its columns.
 * - Content that is withheld gives no rows. A chain that ends with it has none, whatever earlier content is still there; content that was recorded
 *   after it gives its own rows.
 * - A row that stays (a deviation) stays as the last content that is still there gave it; where all that gave it is withheld, it is gone.
 */
export async function replay(client: ClientBase, book: BookRef, save: (dirty: Dirty) => Promise<void>): Promise<number> {
  let count = 0;
  for await (const page of pagesOf(client, book)) {
    const words = await wordsOf(
      client,
      book,
      page.map((e) => e.id),
    );
    const chains = await chainsBefore(client, book, page);
    const work = new WorkingSet(true);
    for (const e of page) {
      const content = e.bytes ? readStored(e.bytes, words.get(e.id)) : undefined;
      const chain = e.root === e.id ? undefined : chains.get(e.root);
      const before = chain?.withdrawn ? undefined : chain?.content;
      work.apply({ entry: e.id, seq: e.seq }, rowsOf(content), rowsOf(before), before && originOf(before));
      extendChain(chains, e.root, e.kind, book.id, content);
    }
    await save(work.dirty());
    count += page.length;
  }
  return count;
}

const rowsOf = (content: Stored | undefined): readonly Change[] => content?.read.rows(content.outcome, content.stamp) ?? [];

/** The chains that a page's corrections continue, as they stood before the page. */
async function chainsBefore(client: ClientBase, book: BookRef, page: readonly StoredEntry[]): Promise<Map<string, Chain>> {
  const roots = [...new Set(page.filter((e) => e.root !== e.id).map((e) => e.root))];
  const chains = new Map<string, Chain>();
  if (roots.length === 0) return chains;
  const { rows } = await client.query<Pick<TableRow<'entry'>, 'root' | 'kind'> & Maybe<Pick<TableRow<'entryBody'>, 'bytes'>>>(
    `SELECT e.root, e.kind, b.bytes FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
     WHERE e.organisation = $1 AND e.book = $2 AND e.root = ANY($3) AND e.seq < $4 ORDER BY e.seq`,
    [book.organisation, book.id, roots, page[0]?.seq ?? 0],
  );
  for (const { root, kind, bytes } of rows) {
    extendChain(chains, root, kind, book.id, bytes ? readStored(bytes) : undefined);
  }
  return chains;
}
