import type { CollectionName } from '@bakehouse/records';
import type { Computed } from '../database/index.js';
import { lookUp, share, type Load, type Loaded } from './store.js';
import { table } from './table.js';

interface Gathered {
  readonly collection: Computed<CollectionName>;
  readonly rows: Computed<readonly Loaded[]>;
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

/**
 * One statement for all collections that a screen asks for in one round, each a line of JSON. There is a text for every choice of collections and fields: a
 * house's screens ask by a few dozen of them, and how many may be kept is bounded.
 */
export const loadTogether: Load = async (client, organisation, views, wanted) => {
  const values: unknown[] = [organisation];
  const lines = [...wanted].map(([collection, of]) => {
    const { name, asJson } = table(collection);
    const rows = lookUp(views, collection, of, `SELECT book, ${asJson} FROM "${name}"`, values);
    return `SELECT '${collection}' AS collection, (SELECT coalesce(json_agg(r), '[]') FROM (${rows}) r) AS rows`;
  });
  const text = lines.join(' UNION ALL ');
  const name = nameOf(text);
  const found = await client.query<Gathered>({ text, values, ...(name === undefined ? {} : { name }) });
  for (const { collection, rows } of found.rows) share(views, collection, rows);
};
