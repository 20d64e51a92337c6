import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Client, Pool } from 'pg';
import { projectRoot } from '../config/index.js';
import { errorCode, errorMessage } from '../errors/index.js';
import { serviceRole } from './roles.js';
import type { Computed } from './row-types.js';

export const migrationsFolder = path.join(projectRoot, 'prisma/migrations');

/** The lock that `prisma migrate deploy` takes, so that the two wait for each other. */
const migrationLock = 72_707_369;

/** The table of `prisma migrate deploy`, to the letter: either tool may go on where the other stopped. */
const createTable = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL, checksum VARCHAR(64) NOT NULL, finished_at TIMESTAMPTZ, migration_name VARCHAR(255) NOT NULL,
  logs TEXT, rolled_back_at TIMESTAMPTZ, started_at TIMESTAMPTZ NOT NULL DEFAULT now(), applied_steps_count INTEGER NOT NULL DEFAULT 0)`;

/** Migrations before this one made a ledger whose kinds and fields had other names. */
const firstOfThisForm = '20261126200000';
const earlierForm =
  'This database holds a ledger of an earlier form, whose kinds and fields have other names: this program would misread it, so it does not ' +
  'open it. Nothing in it was changed. Keep it with the program that wrote it. To go on here, give another DATA_DIR or another database: npm start ' +
  'makes it anew with the demo, npm run records -- begin makes a house of your own.';

interface Migration {
  readonly name: string;
  readonly sql: string;
  readonly checksum: string;
}
interface Applied {
  readonly migration_name: Computed<string>;
  readonly checksum: Computed<string>;
  readonly finished_at: Computed<unknown>;
}

/** The migrations of a folder in their order; the checksum is of the file's bytes. */
export async function readMigrations(folder = migrationsFolder): Promise<Migration[]> {
  const names = (await readdir(folder, { withFileTypes: true }))
    .filter((e) => e.isDirectory())
    .map((e) => e.name)
    .sort();
  return Promise.all(
    names.map(async (name) => {
      const bytes = await readFile(path.join(folder, name, 'migration.sql'));
      return { name, sql: bytes.toString('utf8'), checksum: createHash('sha256').update(bytes).digest('hex') };
    }),
  );
}

/** Which migrations a database still lacks. Throws with a sentence where its history is not ours. */
export async function pendingMigrations(client: Client | Pool, folder?: string): Promise<Migration[]> {
  const known = await readMigrations(folder);
  const byName = new Map(known.map((m) => [m.name, m]));
  const { rows } = await client.query<Applied>(
    'SELECT migration_name, checksum, finished_at FROM _prisma_migrations WHERE rolled_back_at IS NULL',
  );
  for (const row of rows) {
    const ours = byName.get(row.migration_name);
    if (!ours && row.migration_name < firstOfThisForm) throw new Error(earlierForm);
    if (!ours)
      throw new Error(`This database is newer than this program: it has had the migration ${row.migration_name}. Start the newer program.`);
    if (row.finished_at === null)
      throw new Error(
        `The migration ${row.migration_name} was begun by another tool and never ended. Put the database back from its copy, or resolve it there.`,
      );
    if (ours.checksum !== row.checksum)
      throw new Error(
        `The migration ${row.migration_name} was edited after it was applied. Restore the file as it was and write a new migration.`,
      );
  }
  const applied = new Set(rows.map((row) => row.migration_name));
  return known.filter((m) => !applied.has(m.name));
}

/**
 * Refuses a database that lacks migrations, as the service's role, which cannot apply them.
 * @throws with a sentence
 */
export async function demandMigrated(service: Client | Pool): Promise<void> {
  const lacks = await pendingMigrations(service).catch((error: unknown) => {
    if (errorCode(error) === '42P01' || errorCode(error) === '42501') return undefined; // no such table, or not ours to read: nothing was migrated here
    throw error;
  });
  if (lacks?.length === 0) return;
  const what = lacks === undefined ? 'has none of our tables yet' : `lacks ${lacks.length} of our migrations, from ${lacks[0]?.name} on`;
  throw new Error(
    `The database ${what}, and the service may not apply them. As its owner, once: OWNER_DATABASE_URL=… DATABASE_URL=… npm run records -- migrate`,
  );
}

/**
 * Brings a database up to date as its owner, one transaction a file, and plans afresh. Answers with what was applied. With `only`, no migration
 * beside those is applied: a backup is loaded into the tables that it was made from.
 */
export async function migrate(
  client: Client,
  folder?: string,
  before?: () => Promise<void>,
  only?: ReadonlySet<string>,
): Promise<string[]> {
  await client.query('SELECT pg_advisory_lock($1)', [migrationLock]);
  try {
    await before?.();
    await client.query(createTable);
    await client.query(`GRANT SELECT ON _prisma_migrations TO ${serviceRole}`); // so that the service can tell whether it is up to date
    const pending = (await pendingMigrations(client, folder)).filter(({ name }) => only?.has(name) ?? true);
    for (const migration of pending) await apply(client, migration);
    if (pending.length > 0) await client.query('ANALYZE'); // plans made on tables never analysed stay up to six times slower
    return pending.map((m) => m.name);
  } finally {
    await client.query('SELECT pg_advisory_unlock($1)', [migrationLock]);
  }
}

async function apply(client: Client, { name, sql, checksum }: Migration): Promise<void> {
  await client.query('BEGIN');
  try {
    await client.query(sql);
    await client.query(
      'INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, started_at, applied_steps_count) VALUES ($1, $2, clock_timestamp(), $3, now(), 1)',
      [randomUUID(), checksum, name],
    );
    await client.query('COMMIT');
  } catch (cause) {
    await client.query('ROLLBACK');
    throw new Error(`The migration ${name} failed and left nothing behind: ${errorMessage(cause)}`, { cause });
  }
}
