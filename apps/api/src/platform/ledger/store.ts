import {
  collections,
  distinctNeeds,
  isFollowed,
  type CollectionName,
  type Dirty,
  type FollowedNeed,
  type Need,
  type WorkingSet,
} from '@bakehouse/records';
import { grouped } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';
import { snake, statementsFor, table } from './table.js';
import { RowTaken } from './lanes.js';
import type { ClearCut } from './clear-cut.js';
import type { BookRef } from './types.js';

/** What is wanted of one collection: rows by their ids, and by a field's values. */
export interface Wanted {
  readonly ids: string[];
  readonly by: Map<string, string[]>;
}
/** How what is wanted of several collections is asked for, and how needs that are followed, of one collection, field and way on each. */
export interface Load {
  lookUp(client: ClientBase, organisation: string, views: readonly View[], wanted: ReadonlyMap<CollectionName, Wanted>): Promise<unknown>;
  follow(client: ClientBase, organisation: string, views: readonly View[], walks: readonly Walk[], cut: ClearCut): Promise<unknown>;
}
export type Walk = readonly FollowedNeed[];

/** What the entries of one book see, and what they ask for. */
export interface View {
  readonly book: BookRef;
  readonly work: WorkingSet;
}
export interface Asking extends View {
  readonly needs: readonly Need[];
}

/** The prepared statement that loads a collection by these fields: it names all that the text depends on, so one name is one text. */
export const statementName = (collection: string, fields: readonly string[]): string => `need ${collection} ${fields.join('+')}`;

/**
 * Loads what was wanted for into the working sets: one query a collection, however many entries and books ask. Rows of a collection
 * that does not reach beyond its book are seen from that book alone.
 */
export async function loadNeeds(
  client: ClientBase,
  organisation: string,
  asking: readonly Asking[],
  cut: ClearCut,
  load: Load = each,
): Promise<void> {
  const missing = asking.map((a) => ({ ...a, needs: distinctNeeds(a.work.missing(a.needs)) }));
  const wanted = new Map<CollectionName, Wanted>();
  const some = missing.filter((m) => m.needs.length > 0);
  const all = some.length === 1 && some[0] ? some[0].needs : distinctNeeds(some.flatMap((m) => m.needs));
  for (const need of all.filter((n) => !isFollowed(n))) {
    const of = wanted.get(need.in) ?? { ids: [], by: new Map<string, string[]>() };
    wanted.set(need.in, of);
    if ('id' in need) of.ids.push(need.id);
    else {
      const values = of.by.get(need.by) ?? [];
      of.by.set(need.by, values);
      values.push(need.value);
    }
  }
  const walks = [...grouped(all.filter(isFollowed), (n) => `${n.in} ${n.by} ${n.follow}`).values()];
  await Promise.all([
    ...(wanted.size > 0 ? [load.lookUp(client, organisation, missing, wanted)] : []),
    ...(walks.length > 0 ? [load.follow(client, organisation, missing, walks, cut)] : []),
  ]);
  for (const m of missing) m.work.loaded(m.needs.filter((n) => !isFollowed(n)));
}

/**
 * The text that follows needs of one collection, field and way on, to their end or to what is clear: each step looks the next ones up by the index, however large the
 * table and however long the chain behind it. Its parameters are the organisation, the values, and the earliest instant that is asked about.
 */
export function walkSql([first]: Walk, select: string, values = '$2', at = '$3', ends = 'ended.ends'): string {
  if (!first) throw new Error('nothing to follow');
  const { name } = table(first.in);
  const [by, follow] = [snake(first.by), snake(first.follow)];
  const since = `(SELECT c.since FROM clear_lot c WHERE c.organisation = $1 AND c.lot = reached.key AND c.since <= ${at} OFFSET 0)`;
  return (
    `WITH RECURSIVE reached(key) AS (SELECT unnest(${values}::uuid[]) UNION SELECT n.key FROM reached CROSS JOIN LATERAL` +
    ` (SELECT t."${follow}" AS key FROM "${name}" t WHERE t.organisation = $1 AND t."${by}" = reached.key AND t."${follow}" IS NOT NULL` +
    ` AND ${since} IS NULL OFFSET 0) n), ended AS MATERIALIZED (SELECT key, ${since} AS ends FROM reached)` +
    ` SELECT ended.key, ${ends} AS ends, f.* FROM ended LEFT JOIN LATERAL` +
    ` (${select} WHERE organisation = $1 AND ended.ends IS NULL AND "${by}" = ended.key OFFSET 0) f ON true`
  );
}

async function loadFollowed(client: ClientBase, organisation: string, views: readonly View[], walk: Walk, cut: ClearCut): Promise<void> {
  const [first] = walk;
  if (!first) return;
  const { select, name } = table(first.in);
  const { rows } = await client.query<Followed>({
    name: `follow ${name} ${snake(first.by)} ${snake(first.follow)}`,
    text: walkSql(walk, select),
    values: [organisation, walk.map((n) => n.value), cut.at],
  });
  wasFollowed(views, walk, rows, cut);
}

/** Puts what was found on the way where it may be seen, and notes where it ended. */
export function wasFollowed(views: readonly View[], walk: Walk, rows: readonly Followed[], cut: ClearCut): void {
  const [first] = walk;
  if (!first) return;
  share(
    views,
    first.in,
    rows.flatMap(({ key: _key, ends: _ends, id, ...row }) => (id === null ? [] : [{ ...row, id }])),
  );
  for (const { key, at } of rows) cut.note(key, at);
  for (const { work } of views) work.followed(walk, rows);
}

export type StoredRow = Pick<TableRow<'lot'>, 'id'> & Record<string, unknown>;
type Loaded = StoredRow & Pick<TableRow<'lot'>, 'book'>;
export interface Followed extends Record<string, unknown> {
  readonly key: Computed<string>;
  readonly ends: Computed<string | null>;
  readonly id: Computed<string | null>;
  readonly book: TableRow<'lot'>['book'];
}

/** Puts loaded rows where they may be seen: a collection that does not reach beyond its book, in that book's view alone. */
function share(views: readonly View[], collection: CollectionName, rows: readonly Loaded[]): void {
  for (const { book, ...row } of rows) seen(views, collection, book, row);
}

/** The same of one row. */
export function seen(views: readonly View[], collection: CollectionName, book: unknown, row: StoredRow): void {
  const reachesAll = collections[collection].visibleTo === 'organisation';
  for (const v of views) if (reachesAll || v.book.id === book) v.work.base(collection, row);
}

/** One prepared statement a collection, all in one round trip: the door asks the same few again and again. */
const each: Load = {
  lookUp: (client, organisation, views, wanted) =>
    Promise.all([...wanted].map(([collection, of]) => loadCollection(client, organisation, views, collection, of))),
  follow: (client, organisation, views, walks, cut) =>
    Promise.all(walks.map((walk) => loadFollowed(client, organisation, views, walk, cut))),
};

const askedBy = ({ ids, by }: Wanted): readonly (readonly [by: string, list: readonly string[]])[] => [
  ...(ids.length > 0 ? [['id', ids] as const] : []),
  ...by,
];

/** A list as a parameter. Ids and days need no quotes, and to look for what would need some in each of a thousand takes as long as to look one up. */
const listSql = (list: readonly string[], type: string | undefined): unknown => (type === 'text' ? list : `{${list.join(',')}}`);

/**
 * The text that looks up what is wanted of a collection; its parameters are added to the values. Each key is looked up by itself: a plan made while the
 * tables were empty or before they were analysed cannot read a table for it.
 */
export function lookUp(views: readonly View[], collection: CollectionName, of: Wanted, select: string, values: unknown[]): string {
  const { keys } = table(collection);
  const own = collections[collection].visibleTo === 'organisation' ? '' : ` AND book = ANY($${values.push(views.map((v) => v.book.id))})`;
  const arm = (column: string, list: readonly string[]): string =>
    `SELECT f.* FROM unnest($${values.push(listSql(list, keys.get(column)))}::${keys.get(column) ?? 'uuid'}[]) AS k(key)` +
    ` CROSS JOIN LATERAL (${select} WHERE organisation = $1 AND "${column}" = k.key${own} OFFSET 0) f`;
  return askedBy(of)
    .map(([by, list]) => arm(snake(by), list))
    .join(' UNION ALL ');
}

async function loadCollection(
  client: ClientBase,
  organisation: string,
  views: readonly View[],
  collection: CollectionName,
  of: Wanted,
): Promise<void> {
  const values: unknown[] = [organisation];
  const { rows } = await client.query<Loaded>({
    name: statementName(
      collection,
      askedBy(of).map(([by]) => by),
    ),
    text: lookUp(views, collection, of, table(collection).select, values),
    values,
  });
  share(views, collection, rows);
}

/** Writes what changed in these books: one statement a touched table for rows, one for what is gone. `prefix` leads to other tables of the same shape. */
export async function saveDirty(
  client: ClientBase,
  organisation: string,
  changed: readonly { readonly book: string; readonly dirty: Dirty }[],
  prefix = '',
): Promise<void> {
  const touched = new Map<CollectionName, { written: Record<string, unknown>[]; gone: string[] }>();
  for (const { book, dirty } of changed) {
    for (const [collection, rows] of dirty) {
      const of = touched.get(collection) ?? { written: [], gone: [] };
      touched.set(collection, of);
      const { fields } = table(collection);
      for (const [id, w] of rows) {
        if (w === null) {
          of.gone.push(id);
          continue;
        }
        const row: Record<string, unknown> = w.row;
        of.written.push({
          organisation,
          book,
          id,
          entry: w.origin.entry,
          seq: w.origin.seq,
          ...Object.fromEntries(fields.map(([field, column]) => [column, row[field]])),
        });
      }
    }
  }
  const sent: Promise<unknown>[] = [];
  for (const [collection, { written, gone }] of touched) {
    const { name, upsert, remove } = statementsFor(collection, prefix);
    if (written.length > 0)
      sent.push(
        client.query({ name: `save ${name}`, text: upsert, values: [JSON.stringify(written)] }).then(({ rowCount }) => {
          if (rowCount !== written.length) throw new RowTaken(`a row of ${name} is another record's`);
        }),
      );
    if (gone.length > 0) sent.push(client.query({ name: `drop ${name}`, text: remove, values: [organisation, gone] }));
  }
  await Promise.all(sent);
}
