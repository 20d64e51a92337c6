import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { unfenced } from './_statements.js';

const root = path.resolve(import.meta.dirname, '../..');
const sourceFiles = (ending: RegExp): readonly string[] =>
  execFileSync('git', ['ls-files', '-z', 'apps/api/src'], { cwd: root, encoding: 'utf8' })
    .split('\0')
    .filter((file) => ending.test(file));
const textOf = (file: string): string => readFileSync(path.join(root, file), 'utf8');

/**
 * Whether the schema could be distributed by organisation, as Citus wants it (its documentation, "Determining application type", "Limitations", from memory): each table by
 * that column, every key with it, every question about one house. Linted, not run.
 */
let database: TestDatabase;
let owner: pg.Client;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

/** Small and the same everywhere: the houses themselves, and which migrations were applied. */
const reference = ['_prisma_migrations', 'organisation'];

const names = async (sql: string): Promise<readonly string[]> =>
  (await owner.query<{ name: string }>(sql, [reference])).rows.map(({ name }) => name);

const tables = `SELECT c.oid FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND c.relname <> ALL ($1)`;

describe('a schema that could be distributed by organisation', () => {
  it('has the organisation in each table that is no reference table', async () => {
    const all = await names(`SELECT c.relname AS name FROM pg_class c WHERE c.oid IN (${tables})`);
    const lacking = await names(
      `SELECT c.relname AS name FROM pg_class c WHERE c.oid IN (${tables})
         AND NOT EXISTS (SELECT FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attname = 'organisation' AND a.attnotnull AND NOT a.attisdropped)`,
    );
    expect([all.length > 60, lacking]).toEqual([true, []]);
  });

  it('has it in every primary key, unique key and exclusion', async () => {
    expect(
      await names(
        `SELECT i.indexrelid::regclass::text AS name FROM pg_index i WHERE i.indrelid IN (${tables}) AND (i.indisunique OR i.indisexclusion)
           AND NOT EXISTS (SELECT FROM pg_attribute a WHERE a.attrelid = i.indrelid AND a.attname = 'organisation' AND a.attnum = ANY (i.indkey))`,
      ),
    ).toEqual([]);
  });

  it('has it in every foreign key, on the same side of both', async () => {
    expect(
      await names(
        `SELECT f.conname AS name FROM pg_constraint f WHERE f.contype = 'f' AND f.conrelid IN (${tables}) AND NOT EXISTS (
           SELECT FROM unnest(f.conkey, f.confkey) AS k(ours, theirs)
             JOIN pg_attribute a ON a.attrelid = f.conrelid AND a.attnum = k.ours JOIN pg_attribute b ON b.attrelid = f.confrelid AND b.attnum = k.theirs
           WHERE a.attname = 'organisation' AND (b.attname = 'organisation' OR f.confrelid = 'organisation'::regclass))`,
      ),
    ).toEqual([]);
  });

  it('has no trigger for a whole statement', async () => {
    const [all, ofStatements] = [
      await names(`SELECT t.tgname AS name FROM pg_trigger t WHERE t.tgrelid IN (${tables}) AND NOT t.tgisinternal`),
      await names(`SELECT t.tgname AS name FROM pg_trigger t WHERE t.tgrelid IN (${tables}) AND NOT t.tgisinternal AND t.tgtype & 1 = 0`),
    ];
    expect([all.length > 10, ofStatements]).toEqual([true, []]);
  });
});

/** Statements that do not compare the organisation of each table that they name, by file. The list only shrinks. */
const withoutOrganisation: Readonly<Record<string, number>> = {
  'apps/api/src/modules/people/security-log.query.ts': 1,
  'apps/api/src/platform/ledger/every-book.query.ts': 1,
  'apps/api/src/platform/ledger/whom-to-erase.query.ts': 1,
};

/** Transactions that go through several houses: a change of the key for seals is in all books or in none, and a backup is of one moment. The list only shrinks. */
const acrossHouses: readonly string[] = [
  'apps/api/src/modules/seals/key-changes.query.ts',
  'apps/api/src/modules/seals/lose-key.ts',
  'apps/api/src/modules/seals/seals.query.ts',
  'apps/api/src/modules/seals/turn-key.ts',
  'apps/api/src/platform/backups/take.ts',
];
/** Where it is declared, and where one house alone is seen by it. */
const oneHouse = 'apps/api/src/platform/database/house-transaction.ts';

describe('what is asked of it', () => {
  it('compares the organisation of every table that a statement names, but for those that are counted here', async () => {
    const all = new Set(await names(`SELECT c.relname AS name FROM pg_class c WHERE c.oid IN (${tables})`));
    const found = sourceFiles(/\.query\.ts$/).flatMap((file) => {
      const count = unfenced(textOf(file), all).length;
      return count === 0 ? [] : [[file, count] as const];
    });
    expect(Object.fromEntries(found)).toEqual(withoutOrganisation);
  });

  it('goes through several houses in one transaction only where it is named here', () => {
    const found = sourceFiles(/(?<!\.spec)\.ts$/).filter((file) => file !== oneHouse && /\bseeHouse\(/.test(textOf(file)));
    expect(found).toEqual(acrossHouses);
  });

  it.each([
    ['SELECT 1 FROM lot WHERE organisation = $1', 0],
    ['SELECT 1 FROM lot l JOIN flow f ON f.lot = l.id WHERE l.organisation = $1', 1],
    ['SELECT 1 FROM lot l JOIN flow f USING (organisation, lot) WHERE l.organisation = $1', 0],
    ['DELETE FROM session WHERE id = $1', 1],
    ['SELECT * FROM unnest($1)', 0],
  ])('is read as it is meant: %s', (text, count) => {
    expect(unfenced(`const a = '${text}';`, new Set(['lot', 'flow', 'session'])).length).toBe(count);
  });
});
