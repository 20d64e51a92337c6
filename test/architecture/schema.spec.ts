import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { collections } from '@bakehouse/records';
import pg from 'pg';
import { keptTables, leftOutTables } from '../../apps/api/src/platform/backups/what-is-kept.js';
import { snake } from '../../apps/api/src/platform/ledger/table.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';

const root = path.resolve(import.meta.dirname, '../..');
const run = promisify(execFile);
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

describe('the schema', () => {
  it('is what the migrations make: Prisma’s own engine finds no difference', async () => {
    const script = `import(${JSON.stringify(path.join(root, 'test/support/schema-engine.mjs'))}).then(async (m) => process.stdout.write(await m.sqlToSchema(process.argv[1], process.argv[2])))`;
    const { stdout } = await run(process.execPath, ['-e', script, database.ownerUrl, path.join(root, 'prisma/schema')]);
    expect(stdout.replace(/^-- .*$/gm, '').trim()).toBe('');
  });

  it('has the models that the collections give', async () => {
    const file = path.join(root, 'prisma/schema/projections.prisma');
    const before = readFileSync(file, 'utf8');
    await run(process.execPath, [
      path.join(root, 'node_modules/tsx/dist/cli.mjs'),
      path.join(root, 'libs/tooling/generators/projections.ts'),
      'schema',
    ]);
    expect(readFileSync(file, 'utf8')).toBe(before);
  });

  it.each(Object.entries(collections))('has a table for %s with its columns, each lookup indexed', async (_name, { name, row, by }) => {
    const columns = await owner.query<{ column_name: string }>('SELECT column_name FROM information_schema.columns WHERE table_name = $1', [
      name,
    ]);
    expect(columns.rows.map((r) => r.column_name).sort()).toEqual(
      ['organisation', 'book', 'id', 'entry', 'seq', ...Object.keys(row.shape).map(snake)].sort(),
    );
    const indexes = await owner.query<{ indexdef: string }>('SELECT indexdef FROM pg_indexes WHERE tablename = $1', [name]);
    for (const field of by)
      expect(indexes.rows.some((r) => r.indexdef.replaceAll('"', '').match(new RegExp(`\\(organisation, ${snake(field)}[,)]`)))).toBe(true);
  });

  it('restricts every foreign key: nothing is deleted or nulled by the way', async () => {
    const { rows } = await owner.query<{ conname: string; confdeltype: string }>(
      "SELECT conname, confdeltype FROM pg_constraint WHERE contype = 'f' AND connamespace = 'public'::regnamespace",
    );
    expect(rows.length).toBeGreaterThan(3);
    expect(rows.filter((r) => r.confdeltype !== 'r')).toEqual([]);
  });

  it('is in a backup, or named as left out of it, table by table', async () => {
    const { rows } = await owner.query<{ name: string }>(
      "SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p') ORDER BY 1",
    );
    expect([...keptTables, ...leftOutTables.keys()].sort()).toEqual(rows.map(({ name }) => name).sort());
  });

  it('has, in a backup, each table after those that it refers to', async () => {
    const { rows } = await owner.query<{ from: string; to: string }>(
      "SELECT conrelid::regclass::text AS from, confrelid::regclass::text AS to FROM pg_constraint WHERE contype = 'f' AND conrelid <> confrelid",
    );
    const kept = rows.filter(({ from }) => keptTables.includes(from));
    expect(kept.length).toBeGreaterThan(3);
    expect(kept.filter(({ from, to }) => !(keptTables.indexOf(to) >= 0 && keptTables.indexOf(to) < keptTables.indexOf(from)))).toEqual([]);
  });

  it('begins every key with the organisation', async () => {
    const { rows } = await owner.query<{ table: string; first: string }>(
      `SELECT i.indrelid::regclass::text AS table, a.attname AS first FROM pg_index i JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = i.indkey[0]
       JOIN pg_class c ON c.oid = i.indrelid WHERE i.indisprimary AND c.relnamespace = 'public'::regnamespace AND c.relname NOT IN ('organisation', '_prisma_migrations')`,
    );
    expect(rows.length).toBeGreaterThan(50);
    expect(rows.filter((r) => r.first !== 'organisation')).toEqual([]);
  });
});
