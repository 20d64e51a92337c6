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
/** How what is wanted of several collections is asked for. */
export type Load = (
  client: ClientBase,
  organisation: string,
  views: readonly View[],
  wanted: ReadonlyMap<CollectionName, Wanted>,
) => Promise<unknown>;

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
  load: Load = loadEach,
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
  await Promise.all([
    ...(wanted.size > 0 ? [load(client, organisation, missing, wanted)] : []),
    ...[...grouped(all.filter(isFollowed), (n) => `${n.in} ${n.by} ${n.follow}`).values()].map((needs) =>
      loadFollowed(client, organisation, missing, needs, cut),
    ),
  ]);
  for (const m of missing) m.work.loaded(m.needs.filter((n) => !isFollowed(n)));
}

/**
 * Needs of one collection, field and way on, to their end or to what is clear: each step looks the next ones up by the index, however large the table
 * and however long the chain behind it.
 */
async function loadFollowed(
  client: ClientBase,
  organisation: string,
  views: readonly View[],
  needs: readonly FollowedNeed[],
  cut: ClearCut,
): Promise<void> {
  const [first] = needs;
  if (!first) return;
  const { select, name } = table(first.in);
  const [by, follow] = [snake(first.by), snake(first.follow)];
  const since = '(SELECT c.since FROM clear_lot c WHERE c.organisation = $1 AND c.lot = reached.key AND c.since <= $3 OFFSET 0)';
  const { rows } = await client.query<Followed>({
    name: `follow ${name} ${by} ${follow}`,
    text:
      `WITH RECURSIVE reached(key) AS (SELECT unnest($2::uuid[]) UNION SELECT n.key FROM reached CROSS JOIN LATERAL` +
      ` (SELECT t."${follow}" AS key FROM "${name}" t WHERE t.organisation = $1 AND t."${by}" = reached.key AND t."${follow}" IS NOT NULL` +
      ` AND ${since} IS NULL OFFSET 0) n), ended AS MATERIALIZED (SELECT key, ${since} AS ends FROM reached)` +
      ` SELECT ended.key, ended.ends, f.* FROM ended LEFT JOIN LATERAL` +
      ` (${select} WHERE organisation = $1 AND ended.ends IS NULL AND "${by}" = ended.key OFFSET 0) f ON true`,
    values: [organisation, needs.map((n) => n.value), cut.at],
  });
  share(
    views,
    first.in,
    rows.flatMap(({ key: _key, ends: _ends, id, ...row }) => (id === null ? [] : [{ ...row, id }])),
  );
  for (const { key, at } of rows) cut.note(key, at);
  for (const { work } of views) work.followed(needs, rows);
}

export type Loaded = Pick<TableRow<'lot'>, 'id' | 'book'> & Record<string, unknown>;
interface Followed extends Record<string, unknown> {
  readonly key: Computed<string>;
  readonly ends: Computed<string | null>;
  readonly id: Computed<string | null>;
  readonly book: TableRow<'lot'>['book'];
}

/** Puts loaded rows where they may be seen: a collection that does not reach beyond its book, in that book's view alone. */
export function share(views: readonly View[], collection: CollectionName, rows: readonly Loaded[]): void {
  const reachesAll = collections[collection].visibleTo === 'organisation';
  for (const { book, ...row } of rows) for (const v of views) if (reachesAll || v.book.id === book) v.work.base(collection, row);
}

/** One prepared statement a collection, all in one round trip: the door asks the same few again and again. */
const loadEach: Load = (client, organisation, views, wanted) =>
  Promise.all([...wanted].map(([collection, of]) => loadCollection(client, organisation, views, collection, of)));

const askedBy = ({ ids, by }: Wanted): readonly (readonly [by: string, list: readonly string[]])[] => [
  ...(ids.length > 0 ? [['id', ids] as const] : []),
  ...by,
];

/**
 * The text that looks up what is wanted of a collection; its parameters are added to the values. Each key is looked up by itself: a plan made while the
 * tables were empty or before they were analysed cannot read a table for it.
 */
export function lookUp(views: readonly View[], collection: CollectionName, of: Wanted, select: string, values: unknown[]): string {
  const { keys } = table(collection);
  const own = collections[collection].visibleTo === 'organisation' ? '' : ` AND book = ANY($${values.push(views.map((v) => v.book.id))})`;
  const arm = (column: string, list: readonly string[]): string =>
    `SELECT f.* FROM unnest($${values.push(list)}::${keys.get(column) ?? 'uuid'}[]) AS k(key)` +
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
