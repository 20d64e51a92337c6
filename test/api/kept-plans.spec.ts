import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { followedStandingOf, standingOf } from '../../apps/api/src/modules/standing/index.js';
import { servicePool, Tenancy } from '../../apps/api/src/platform/database/index.js';
import type { BookRef } from '../../apps/api/src/platform/ledger/index.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { fillTenYears, type TenYears } from '../support/ten-years.js';

const at = '2026-12-01T00:00:00.000Z';

let database: TestDatabase;
let owner: pg.Client;
let pool: pg.Pool;
let tenancy: Tenancy;
let house: TenYears;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  house = await fillTenYears(owner, 10_000);
  await owner.query('ANALYZE');
  pool = servicePool(database.serviceUrl, 1);
  tenancy = new Tenancy(pool);
});
afterAll(async () => {
  await pool.end();
  await owner.end();
  await database.drop();
});

/** A night of sixty batches has no more rows of one table than this. */
const few = 1_000;

/** The tables of which a transaction read rows one after the other, or many by an index that was of no help, as the server counted them. */
async function tablesRead(work: (client: pg.ClientBase) => Promise<unknown>): Promise<readonly string[]> {
  return tenancy.reading(house.organisation, async (client) => {
    await work(client);
    const { rows } = await client.query<{ name: string; read: number }>(
      `SELECT relname AS name, (seq_tup_read + idx_tup_fetch)::int AS read FROM pg_stat_xact_user_tables
       WHERE seq_tup_read > 0 OR idx_tup_fetch > ${few} ORDER BY relname`,
    );
    await client.query('SELECT pg_stat_force_next_flush()'); // or what this one read would be counted with the next
    return rows.map(({ name, read }) => `${name}, ${read} rows`);
  });
}

/** The service keeps the plan of a statement on each of its connections. Which lots are clear is noted again and again, and forgotten all at once. */
describe('plans that were made while no lot was noted as clear', () => {
  const night = (): string[] => Array.from({ length: 60 }, (_, i) => house.lot('batch', i + 3));
  const books = (): BookRef[] => house.books.map((id) => ({ organisation: house.organisation, id, type: 'site', zone: 'Europe/London' }));

  it.each([
    ['how lots stand, followed to what they come of', followedStandingOf],
    ['how lots stand, from what is open', standingOf],
  ])('read no table once there are many: %s', async (_what, standing) => {
    await owner.query('DELETE FROM clear_lot');
    await owner.query('VACUUM ANALYZE clear_lot');
    await tablesRead((client) => standing(client, books(), night(), at));
    await owner.query('INSERT INTO clear_lot (organisation, lot, since) SELECT organisation, id, at FROM lot WHERE name = $1', ['Starter']);
    expect(await tablesRead((client) => standing(client, books(), night(), at))).toEqual([]);
  });
});
