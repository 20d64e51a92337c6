import { collections, distinctNeeds, type CollectionName, type Dirty, type Need, type WorkingSet } from '@bakehouse/domain';
import type { ClientBase } from 'pg';
import { snake, statementsFor, table } from './table.js';
import type { BookRef } from './types.js';

interface Asked { ids: string[]; by: Map<string, string[]> }

/**
 * Loads what was asked for into the working set: one query a collection, however many entries ask. Rows of a collection that
 * does not reach beyond its book are seen from that book, or from any site where they stand in the organisation's book.
 */
export async function loadNeeds(client: ClientBase, book: BookRef, needs: readonly Need[], work: WorkingSet): Promise<void> {
  const missing = work.missing(distinctNeeds(needs));
  const asked = new Map<CollectionName, Asked>();
  for (const need of missing) {
    const of = asked.get(need.in) ?? { ids: [], by: new Map<string, string[]>() };
    asked.set(need.in, of);
    if ('id' in need) of.ids.push(need.id);
    else of.by.set(need.by, [...(of.by.get(need.by) ?? []), need.value]);
  }
  await Promise.all([...asked].map(([collection, of]) => loadCollection(client, book, collection, of, work)));
  work.loaded(missing);
}

async function loadCollection(client: ClientBase, book: BookRef, collection: CollectionName, of: Asked, work: WorkingSet): Promise<void> {
  const values: unknown[] = [book.organisation];
  const arms: string[] = [];
  const arm = (column: string, list: readonly string[]): void => { values.push(list); arms.push(`"${column}" = ANY($${values.length})`); };
  if (of.ids.length > 0) arm('id', of.ids);
  for (const [by, list] of of.by) arm(snake(by), list);
  const own = collections[collection].reach === 'organisation' ? '' : ` AND book = $${values.push(book.id)}`;
  const text = `${table(collection).select} WHERE organisation = $1 AND (${arms.join(' OR ')})${own}`;
  const { rows } = await client.query<{ id: string; book?: string } & Record<string, unknown>>({ name: `need ${collection} ${arms.join()}${own}`.slice(0, 63), text, values });
  for (const { book: _book, ...row } of rows) work.base(collection, row);
}

/** Writes what changed: one statement a touched table for rows, one for what is gone. `prefix` leads to other tables of the same shape. */
export async function saveDirty(client: ClientBase, book: BookRef, dirty: Dirty, prefix = ''): Promise<void> {
  const sent: Promise<unknown>[] = [];
  for (const [collection, rows] of dirty) {
    const { name, fields, upsert, remove } = statementsFor(collection, prefix);
    const written: Record<string, unknown>[] = [];
    const gone: string[] = [];
    for (const [id, w] of rows) {
      if (w === null) { gone.push(id); continue; }
      const row: Record<string, unknown> = w.row;
      written.push({ organisation: book.organisation, book: book.id, id, entry: w.origin.entry, seq: w.origin.seq, ...Object.fromEntries(fields.map(([field, column]) => [column, row[field]])) });
    }
    if (written.length > 0) sent.push(client.query({ name: `save ${name}`, text: upsert, values: [JSON.stringify(written)] }));
    if (gone.length > 0) sent.push(client.query({ name: `drop ${name}`, text: remove, values: [book.organisation, gone] }));
  }
  await Promise.all(sent);
}
