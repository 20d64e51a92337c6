import { WorkingSet, type Dirty } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { contentOf, extendChain, readContent, type Chain } from './known.js';
import { pagesOf, wordsOf, type StoredEntry } from './read-entries.js';
import type { BookRef } from './types.js';

/**
 * Makes a book's rows again from its stored bytes alone: `rows` only, never `decide`. Hands each page's changes on in order.
 * Entries whose body is withheld make no rows, and neither do the chains that they end.
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
      if (!e.bytes) continue;
      const content = contentOf(e.bytes);
      const read = readContent(content, words.get(e.id));
      const chain = e.root === e.id ? undefined : chains.get(e.root);
      const before = chain?.content && !chain.withdrawn ? chain.content.read.rows(chain.content.outcome, chain.content.stamp) : [];
      work.apply({ entry: e.id, seq: e.seq }, read.rows(content.outcome, content.stamp), before);
      extendChain(chains, e.root, e.kind, book.id, () => ({ read, outcome: content.outcome, stamp: content.stamp }));
    }
    await save(work.dirty());
    count += page.length;
  }
  return count;
}

/** The chains that a page's corrections continue, as they stood before the page. */
async function chainsBefore(client: ClientBase, book: BookRef, page: readonly StoredEntry[]): Promise<Map<string, Chain>> {
  const roots = [...new Set(page.filter((e) => e.root !== e.id).map((e) => e.root))];
  const chains = new Map<string, Chain>();
  if (roots.length === 0) return chains;
  const { rows } = await client.query<{ root: string; kind: string; bytes: Buffer | null }>(
    `SELECT e.root, e.kind, b.bytes FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
     WHERE e.organisation = $1 AND e.book = $2 AND e.root = ANY($3) AND e.seq < $4 ORDER BY e.seq`,
    [book.organisation, book.id, roots, page[0]?.seq ?? 0],
  );
  for (const { root, kind, bytes } of rows) {
    extendChain(
      chains,
      root,
      kind,
      book.id,
      bytes
        ? () => {
            const c = contentOf(bytes);
            return { read: readContent(c), outcome: c.outcome, stamp: c.stamp };
          }
        : undefined,
    );
  }
  return chains;
}
