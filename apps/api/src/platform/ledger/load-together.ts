import type { CollectionName } from '@bakehouse/records';
import type { Computed } from '../database/index.js';
import { lookUp, seen, walkSql, wasFollowed, type Followed, type Load, type StoredRow } from './store.js';
import { instantSql, table } from './table.js';

/**
 * The values of some rows, a list for each column; null where there are no rows. A column is named once and not in each row: to name them is most of what making
 * JSON costs, where a question finds many short rows.
 */
type Columns = Computed<readonly (readonly unknown[] | null)[]>;

interface Gathered {
  readonly collection: Computed<CollectionName>;
  readonly columns: Columns;
}

interface Walked {
  readonly walk: Computed<number>;
  readonly columns: Columns;
}

/** So many texts are prepared on each connection, the first that came; those after them are planned each time. */
const maxPrepared = 100;
const prepared = new Map<string, string>();

function nameOf(text: string): string | undefined {
  const known = prepared.get(text);
  if (known !== undefined || prepared.size >= maxPrepared) return known;
  const name = `together ${prepared.size}`;
  prepared.set(text, name);
  return name;
}

const inColumns = (names: readonly string[], rows: string): string =>
  `(SELECT json_build_array(${names.map((name) => `json_agg(r."${name}")`).join(', ')}) FROM (${rows}) r) AS columns`;

const namesOf = (collection: CollectionName): string[] => ['id', ...table(collection).fields.map(([field]) => field)];

const walked = (collection: CollectionName): string[] => ['key', 'ends', 'book', ...namesOf(collection)];

/** The rows again: what stands at the same place of each list, by these names. */
function rowsIn(names: readonly string[], columns: Columns): Record<string, unknown>[] {
  const rows = Array.from({ length: columns[0]?.length ?? 0 }, (): Record<string, unknown> => ({}));
  for (const [c, name] of names.entries()) for (const [i, row] of rows.entries()) row[name] = columns[c]?.[i];
  return rows;
}

const isRow = (row: Record<string, unknown>): row is StoredRow => typeof row['id'] === 'string';
const isFollowed = (row: Record<string, unknown>): row is Followed => typeof row['key'] === 'string';

/**
 * One statement for all collections that a screen asks for in one round, each a line of JSON, and one for all that it follows. There is a text for every choice of collections and
 * fields: a house's screens ask by a few dozen of them, and how many may be kept is bounded.
 */
export const together: Load = {
  async lookUp(client, organisation, views, wanted) {
    const values: unknown[] = [organisation];
    const lines = [...wanted].map(([collection, of]) => {
      const { name, asJson } = table(collection);
      const rows = lookUp(views, collection, of, `SELECT book, ${asJson} FROM "${name}"`, values);
      return `SELECT '${collection}' AS collection, ${inColumns(['book', ...namesOf(collection)], rows)}`;
    });
    const found = await client.query<Gathered>(asked(lines.join(' UNION ALL '), values));
    for (const { collection, columns } of found.rows) {
      const [books, ...rest] = columns;
      for (const [i, row] of rowsIn(namesOf(collection), rest).entries()) if (isRow(row)) seen(views, collection, books?.[i], row);
    }
  },
  async follow(client, organisation, views, walks, cut) {
    const values: unknown[] = [organisation, cut.at];
    const lines = walks.map((walk, i) => {
      const [first] = walk;
      if (!first) throw new Error('nothing to follow');
      const { name, asJson } = table(first.in);
      const sql = walkSql(
        walk,
        `SELECT book, ${asJson} FROM "${name}"`,
        `$${values.push(walk.map((n) => n.value))}`,
        '$2',
        instantSql('ended.ends'),
      );
      return `SELECT ${i} AS walk, ${inColumns(walked(first.in), sql)}`;
    });
    const found = await client.query<Walked>(asked(lines.join(' UNION ALL '), values));
    for (const { walk, columns } of found.rows) {
      const [first] = walks[walk] ?? [];
      if (first) wasFollowed(views, walks[walk] ?? [], rowsIn(walked(first.in), columns).filter(isFollowed), cut);
    }
  },
};

function asked(text: string, values: readonly unknown[]) {
  const name = nameOf(text);
  return { text, values: [...values], ...(name === undefined ? {} : { name }) };
}
