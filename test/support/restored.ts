import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { restoreCommand } from '../../apps/api/src/restore.command.js';
import { createEmptyDatabase, type TestDatabase } from './database.js';

export interface Restored {
  readonly code: number;
  readonly said: string;
  readonly database: TestDatabase;
  /** Where its key for seals is. */
  readonly dataDir: string;
}

/** Restores a backup as the command does, into a database without anything in it; `words` come after its own. */
export async function restoreBackup(file: string, secret: string, folder: string, ...words: readonly string[]): Promise<Restored> {
  const database = await createEmptyDatabase();
  try {
    return { ...(await restoreInto(database, file, secret, folder, ...words)), database };
  } catch (error) {
    await database.drop();
    throw error;
  }
}

/** The same into a database that is there. */
export async function restoreInto(
  { ownerUrl }: Pick<TestDatabase, 'ownerUrl'>,
  file: string,
  secret: string,
  folder: string,
  ...words: readonly string[]
): Promise<Omit<Restored, 'database'>> {
  const key = path.join(folder, 'private-key.txt');
  const dataDir = path.join(folder, `restored ${path.basename(file)}`);
  await writeFile(key, `printed on 27 November:\n${secret}\n`);
  const said: string[] = [];
  const config = readConfig({ OWNER_DATABASE_URL: ownerUrl, DATA_DIR: dataDir });
  const code = await restoreCommand({ config, words: [file, '--key', key, ...words], say: (line) => said.push(line) });
  return { code, said: said.join('\n'), dataDir };
}

/** Every table of a database with a hash of its rows, by PostgreSQL; of sessions without when and why they ended. */
export async function tableHashes({ ownerUrl }: Pick<TestDatabase, 'ownerUrl'>): Promise<ReadonlyMap<string, string>> {
  return connected(ownerUrl, async (owner) => {
    const { rows } = await owner.query<{ name: string }>(
      "SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' ORDER BY 1",
    );
    const hashes = new Map<string, string>();
    for (const { name } of rows) {
      const row = name === 'session' ? "(to_jsonb(t) - 'ended_at' - 'ended_why')::text" : 't::text';
      const { rows: hashed } = await owner.query<{ hash: string }>(
        `SELECT count(*) || ' ' || coalesce(md5(string_agg(${row}, E'\\n' ORDER BY ${row} COLLATE "C")), '') AS hash FROM "${name}" t`,
      );
      hashes.set(name, hashed[0]?.hash ?? '');
    }
    return hashes;
  });
}
