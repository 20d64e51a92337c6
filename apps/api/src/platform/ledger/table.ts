import { collections, type CollectionName } from '@bakehouse/records';
import * as z from 'zod';

/** `doneBy` → `done_by`: how a row's field is called in SQL. */
/** A list of words of ours as an array of SQL, for statements that are written once. */
export const wordsSql = (list: readonly string[]): string => `ARRAY[${list.map((word) => `'${word}'`).join(', ')}]`;

export const snake = (name: string): string => name.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);

interface Table {
  readonly name: string;
  readonly fields: readonly (readonly [field: string, column: string])[];
  readonly select: string;
  /** The fields of a row for JSON that PostgreSQL makes: instants in the form in which entries carry them. */
  readonly asJson: string;
  /** The types of the columns that rows are looked up by. */
  readonly keys: ReadonlyMap<string, 'uuid' | 'date' | 'text'>;
  readonly upsert: string;
  readonly remove: string;
}

/** A row is written again by the entries of its own chain alone; looked up only where there is a row already. */
const sameChain = (name: string): string =>
  `"${name}"."entry" = excluded."entry" OR (SELECT e.root FROM entry e WHERE e.organisation = excluded."organisation" AND e.id = "${name}"."entry")` +
  ' = (SELECT e.root FROM entry e WHERE e.organisation = excluded."organisation" AND e.id = excluded."entry")';

function keyType(shape: Readonly<Record<string, unknown>>, field: string): 'uuid' | 'date' | 'text' {
  const declared = shape[field];
  const type = declared instanceof z.ZodNullable ? declared.unwrap() : declared;
  return type instanceof z.ZodUUID ? 'uuid' : type instanceof z.ZodISODate ? 'date' : 'text';
}

/** An instant for JSON, in the form in which entries carry it. */
export const instantSql = (of: string): string => `to_char(${of} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** What `valueTypes` does where rows come as columns. */
function jsonField([field, column]: readonly [string, string], shape: Readonly<Record<string, unknown>>): string {
  const declared = shape[field];
  const type = declared instanceof z.ZodNullable ? declared.unwrap() : declared;
  const instant = type instanceof z.ZodISODateTime;
  return `${instant ? instantSql(`"${column}"`) : `"${column}"`} AS "${field}"`;
}

function tableOf(name: CollectionName, prefix = ''): Table {
  const declared = { ...collections[name], name: prefix + collections[name].name };
  const fields = Object.keys(declared.row.shape).map((field) => [field, snake(field)] as const);
  const columns = ['organisation', 'book', 'id', 'entry', 'seq', ...fields.map(([, column]) => column)].map((c) => `"${c}"`).join(', ');
  const set = ['entry', 'seq', ...fields.map(([, column]) => column)].map((c) => `"${c}" = excluded."${c}"`).join(', ');
  return {
    name: declared.name,
    fields,
    keys: new Map([['id', 'uuid'], ...declared.by.map((field) => [snake(field), keyType(declared.row.shape, field)] as const)]),
    select: `SELECT id, book, ${fields.map(([field, column]) => `"${column}" AS "${field}"`).join(', ')} FROM "${declared.name}"`,
    asJson: ['id', ...fields.map((pair) => jsonField(pair, declared.row.shape))].join(', '),
    upsert:
      `INSERT INTO "${declared.name}" (${columns}) SELECT ${columns} FROM json_populate_recordset(NULL::"${declared.name}", $1::json)` +
      ` ON CONFLICT (organisation, id) DO UPDATE SET ${set} WHERE ${sameChain(declared.name)}`,
    remove: `DELETE FROM "${declared.name}" WHERE organisation = $1 AND id = ANY($2)`,
  };
}

const names = Object.keys(collections) as CollectionName[]; // keys of a constant object: TypeScript widens them to string

/** Every collection's table, with the three statements that the writer and the rebuild use. */
export const tables: ReadonlyMap<CollectionName, Table> = new Map(names.map((name) => [name, tableOf(name)]));

export function table(name: CollectionName): Table {
  const found = tables.get(name);
  if (!found) throw new Error(`no table for ${name}`);
  return found;
}

/** The same statements for tables of the same shape under another name: a verification's copy. */
export const statementsFor = (name: CollectionName, prefix: string): Table => (prefix === '' ? table(name) : tableOf(name, prefix));
