import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import type { Computed } from '../database/index.js';
import type { MigrationRef } from './form.js';
import { readBackup } from './read.js';
import { columnsOf, plainText } from './take.js';
import { keptTables } from './what-is-kept.js';

/**
 * Refuses a database that holds anything, or one that is further than the backup.
 * @throws with a sentence
 */
export async function refuseUnlessEmpty(owner: ClientBase, migrations: readonly MigrationRef[]): Promise<void> {
  const { rows } = await owner.query<{ there: Computed<boolean> }>("SELECT to_regclass('public.organisation') IS NOT NULL AS there");
  if (rows[0]?.there !== true) return;
  const { rows: houses } = await owner.query<{ count: Computed<number> }>('SELECT count(*)::int AS count FROM organisation');
  if (houses[0]?.count !== 0)
    throw new Error(
      'There are records here already, and a backup is restored into an empty place only. Nothing was changed. Give another DATA_DIR.',
    );
  const { rows: applied } = await owner.query<{ name: Computed<string> }>(
    'SELECT migration_name AS name FROM _prisma_migrations WHERE rolled_back_at IS NULL',
  );
  const ours = new Set(migrations.map(({ name }) => name));
  if (applied.some(({ name }) => !ours.has(name)))
    throw new Error(
      'This database is empty, but its tables are newer than the backup. Nothing was changed. Give a new database or another DATA_DIR.',
    );
}

/**
 * Loads a backup into the empty tables of its own migrations, all of it or nothing. Rows are not made yet: each book says so, and the service does
 * not start over it until they are. Sessions are ended, since what ended one after the backup is not in it.
 */
export async function loadBackup(owner: ClientBase, file: string, secret: string, clock: Clock): Promise<void> {
  const known = await columnsOf(owner);
  await owner.query(`BEGIN; ${plainText}; SET LOCAL row_security = off`);
  try {
    await readBackup(file, secret, {
      rows: async (table, columns, lines) => {
        await owner.query(insertInto(table, columns, known), [`[${lines.join(',')}]`]);
      },
    });
    await owner.query('UPDATE book SET projection = 0');
    await owner.query("UPDATE session SET ended_at = $1, ended_why = 'ended-elsewhere' WHERE ended_at IS NULL", [
      clock.now().toISOString(),
    ]);
    await owner.query('COMMIT');
  } catch (error) {
    await owner.query('ROLLBACK');
    throw error;
  }
  await owner.query('ANALYZE');
}

/** Names and types are the database's own, never the file's. */
function insertInto(table: string, columns: readonly string[], known: Awaited<ReturnType<typeof columnsOf>>): string {
  const ours = keptTables.includes(table) ? known.get(table) : undefined;
  const typeOf = new Map(ours?.map(({ column, type }) => [column, type]));
  if (columns.length !== typeOf.size || columns.some((column) => !typeOf.has(column)))
    throw new Error(`The backup has a table ${JSON.stringify(table)} that this program does not know in that form.`);
  const values = columns.map((column, i) => `(r->>${i})::${typeOf.get(column) ?? ''}`).join(', ');
  return `INSERT INTO "${table}" (${columns.map((c) => `"${c}"`).join(', ')}) SELECT ${values} FROM json_array_elements($1::json) r`;
}
