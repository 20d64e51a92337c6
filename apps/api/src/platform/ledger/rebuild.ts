import { projectionVersion, type CollectionName } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';
import { forgetClear } from './clear-lots.js';
import { watchAll } from './on-watch.js';
import { replay } from './replay.js';
import { saveDirty } from './store.js';
import { snake, table, tables } from './table.js';
import type { BookRef } from './types.js';

/**
 * Drops a book's projections and makes them again from its bytes, in the caller's transaction and under the book's lock. A row whose entry is not of the
 * book that it names is from no book, and goes as well: its own book, if it has one, makes it again.
 */
export async function rebuild(client: ClientBase, book: BookRef): Promise<number> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 AND id = $2 FOR UPDATE', [book.organisation, book.id]);
  await forgetClear(client, book.organisation, 'everything');
  for (const { name } of tables.values())
    await client.query(`DELETE FROM "${name}" r WHERE organisation = $1 AND (book = $2 OR NOT EXISTS (${itsEntry}))`, [
      book.organisation,
      book.id,
    ]);
  const entries = await replay(client, book, (dirty) => saveDirty(client, book.organisation, [{ book: book.id, dirty }]));
  await watchAll(client, book.organisation);
  await client.query('UPDATE book SET projection = $3 WHERE organisation = $1 AND id = $2', [
    book.organisation,
    book.id,
    projectionVersion,
  ]);
  return entries;
}

const itsEntry = 'SELECT FROM entry e WHERE e.organisation = r.organisation AND e.id = r.entry AND e.book = r.book';

interface DifferentRow extends Pick<TableRow<'lot'>, 'id'> {
  readonly entry: Computed<string>;
  readonly stored: Computed<boolean>;
  readonly again: Computed<boolean>;
  readonly withheld: Computed<boolean>;
}
export interface RowDifference {
  readonly collection: CollectionName;
  readonly id: string;
  readonly entry: string;
  readonly how: 'changed' | 'missing' | 'not-from-the-ledger' | 'withheld';
}

/** Whether the entry is there and its body is not. */
const bodyIsGone = (entry: string): string =>
  `EXISTS (SELECT FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq) WHERE e.organisation = $1 AND e.id = ${entry} AND b.bytes IS NULL)`;

/** A table for the rows that are made again, which is gone with the transaction. */
async function besideStored(client: ClientBase, collection: CollectionName): Promise<void> {
  const { name } = table(collection);
  await client.query(`CREATE TEMP TABLE "again_${name}" (LIKE "${name}", PRIMARY KEY (organisation, id)) ON COMMIT DROP`);
}

type Held = { readonly collection: Computed<CollectionName> };

/** Of these collections, those that the book has rows in. */
async function withRows(client: ClientBase, { organisation, id }: BookRef, of: readonly CollectionName[]): Promise<CollectionName[]> {
  const each = of.map(
    (c) => `SELECT '${c}' AS collection WHERE EXISTS (SELECT FROM "${table(c).name}" WHERE organisation = $1 AND book = $2)`,
  );
  const { rows } = each.length === 0 ? { rows: [] } : await client.query<Held>(each.join(' UNION ALL '), [organisation, id]);
  return rows.map((r) => r.collection);
}

/** Makes the rows again beside the stored ones and tells where they differ; changes nothing. Needs the right to make temporary tables. */
export async function compareProjections(client: ClientBase, book: BookRef): Promise<RowDifference[]> {
  const made = new Set<CollectionName>();
  const make = async (collections: Iterable<CollectionName>): Promise<void> => {
    for (const collection of collections) {
      if (!made.has(collection)) await besideStored(client, collection);
      made.add(collection);
    }
  };
  await replay(client, book, async (dirty) => {
    await make(dirty.keys());
    await saveDirty(client, book.organisation, [{ book: book.id, dirty }], 'again_');
  });
  await make(
    await withRows(
      client,
      book,
      [...tables.keys()].filter((c) => !made.has(c)),
    ),
  );
  const differences: RowDifference[] = [];
  for (const [collection, { name, fields }] of tables) {
    if (!made.has(collection)) continue; // nothing stored, and nothing made
    const columns = ['id', 'entry', 'seq', ...fields.map(([field]) => snake(field))].map((c) => `"${c}"`).join(', ');
    const stored = `SELECT ${columns} FROM "${name}" WHERE organisation = $1 AND book = $2`;
    const again = `SELECT ${columns} FROM "again_${name}"`;
    const { rows } = await client.query<DifferentRow>(
      `SELECT id, coalesce(min(entry::text) FILTER (WHERE s), min(entry::text)) AS entry, bool_or(s) AS stored, bool_or(NOT s) AS again,
         bool_or(s AND ${bodyIsGone('d.entry')}) AS withheld FROM (
         (SELECT id, entry, true AS s FROM (${stored} EXCEPT ${again}) x) UNION ALL (SELECT id, entry, false AS s FROM (${again} EXCEPT ${stored}) y)
       ) d GROUP BY id ORDER BY id`,
      [book.organisation, book.id],
    );
    for (const r of rows)
      differences.push({
        collection,
        id: r.id,
        entry: r.entry,
        how: r.withheld ? 'withheld' : r.stored && r.again ? 'changed' : r.stored ? 'not-from-the-ledger' : 'missing',
      });
  }
  return differences;
}
