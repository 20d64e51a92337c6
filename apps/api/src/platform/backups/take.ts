import { createHash } from 'node:crypto';
import type { ClientBase } from 'pg';
import { organisationIds, seeHouse, type Computed } from '../database/index.js';
import { formVersion, type Header, type MigrationRef } from './form.js';
import { Heads } from './heads.js';
import { keptTables } from './what-is-kept.js';

interface Column {
  readonly table: Computed<string>;
  readonly column: Computed<string>;
  readonly type: Computed<string>;
  /** Its place in the primary key; null where it is none of it. */
  readonly key: Computed<number | null>;
}

/** Text that another session, another setting or another day reads the same. */
export const plainText =
  "SET LOCAL TimeZone = 'UTC'; SET LOCAL DateStyle = 'ISO'; SET LOCAL bytea_output = 'hex'; SET LOCAL statement_timeout = 0";

/** Only one backup at a time, whichever process takes it. */
const backupLock = 72_707_370;

/** The columns of every table of ours, in their order. */
export async function columnsOf(owner: ClientBase): Promise<ReadonlyMap<string, readonly Column[]>> {
  const { rows } = await owner.query<Column>(
    `SELECT c.relname AS table, a.attname AS column, format_type(a.atttypid, a.atttypmod) AS type, array_position(i.indkey::int2[], a.attnum) AS key
     FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
       LEFT JOIN pg_index i ON i.indrelid = c.oid AND i.indisprimary
     WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' ORDER BY c.relname, a.attnum`,
  );
  const tables = new Map<string, Column[]>();
  for (const column of rows) tables.set(column.table, [...(tables.get(column.table) ?? []), column]);
  return tables;
}

/**
 * The text of a backup, of one moment: a read-only transaction that writers do not wait for, and that does not wait for them. A line each: what it
 * is, then each table with its rows and their hash, then that it is whole. As the service's role: it may read all that is kept, one house after the other.
 */
export async function* backupText(service: ClientBase, given: Pick<Header, 'at' | 'sealKey'>): AsyncGenerator<string> {
  await service.query(`BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY; ${plainText}`);
  let whole = false;
  try {
    const { rows: got } = await service.query<{ free: Computed<boolean> }>('SELECT pg_try_advisory_xact_lock($1) AS free', [backupLock]);
    if (got[0]?.free !== true) throw new Error('Another backup is being taken. Wait until it has ended.');
    const { rows: migrations } = await service.query<Record<keyof MigrationRef, Computed<string>>>(
      'SELECT migration_name AS name, checksum FROM _prisma_migrations WHERE rolled_back_at IS NULL AND finished_at IS NOT NULL ORDER BY migration_name',
    );
    const head: Header = { bakehouseBackup: formVersion, ...given, migrations };
    yield `${JSON.stringify(head)}\n`;
    const known = await columnsOf(service);
    const heads = new Heads();
    const tables = keptTables.filter((table) => known.has(table));
    const organisations = await organisationIds(service);
    for (const table of tables) yield* tableText(service, table, known.get(table) ?? [], heads, organisations);
    yield `${JSON.stringify({ end: 'whole', tables: tables.length, books: heads.summary() })}\n`;
    whole = true;
  } finally {
    await service.query(whole ? 'COMMIT' : 'ROLLBACK').catch(() => undefined); // nothing was written
  }
}

/** Rows at once: photos are up to four megabytes each. */
const rowsAtOnce = (table: string): number => (table === 'photo' ? 4 : 1000);

async function* tableText(
  service: ClientBase,
  table: string,
  columns: readonly Column[],
  heads: Heads,
  organisations: readonly string[],
): AsyncGenerator<string> {
  const names = columns.map(({ column }) => column);
  yield `${JSON.stringify({ table, columns: names })}\n`;
  const key = columns.filter((c) => c.key !== null).sort((a, b) => Number(a.key) - Number(b.key));
  const text = names.map((name) => `"${name}"::text`).join(', ');
  const select = `SELECT json_build_array(${text})::text AS line FROM "${table}" ORDER BY ${key.map((c) => `"${c.column}"`).join(', ')}`;
  const hash = createHash('sha256');
  let count = 0;
  for (const organisation of organisations) {
    await seeHouse(service, organisation);
    await service.query(`DECLARE backup NO SCROLL CURSOR FOR ${select}`);
    for (;;) {
      const { rows } = await service.query<{ line: Computed<string> }>(`FETCH ${rowsAtOnce(table)} FROM backup`);
      if (rows.length === 0) break;
      const lines = rows.map(({ line }) => line);
      heads.take(table, names, lines);
      const page = `${lines.join('\n')}\n`;
      hash.update(page);
      count += lines.length;
      yield page;
    }
    await service.query('CLOSE backup');
  }
  yield `${JSON.stringify({ rows: count, sha256: hash.digest('hex') })}\n`;
}
