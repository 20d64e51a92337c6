import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { findDeliveries, findParties, findPeople } from '../../apps/api/src/modules/search/found.query.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { Explained } from '../support/plans.js';
import { fillTenYears, type TenYears } from '../support/ten-years.js';

/** Ten a day, for ten years, at two sites. */
const deliveries = 36_500;
let database: TestDatabase;
let owner: pg.Client;
let house: TenYears;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  house = await fillTenYears(owner, 20_000);
  await owner.query(
    `INSERT INTO delivery (organisation, book, id, entry, seq, supplier, note, unattended, received_at)
     SELECT $1::uuid, (CASE WHEN n % 2 = 0 THEN $2 ELSE $3 END)::uuid, i, i, 1, NULL, 'DN ' || lpad((n * 7919 % 1000000)::text, 6, '0'), false, timestamptz '2016-11-26' + n * interval '144 minutes'
     FROM (SELECT n, ('0190a6d0-7b3c-7d00-8000-' || lpad(to_hex(n), 12, '0'))::uuid AS i FROM generate_series(1, ${deliveries}) n) x`,
    [house.organisation, ...house.books],
  );
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

/** What is inside so many numbers is looked at; the rest is not. */
const most = 400;
const large = new Set(['delivery', 'lot', 'batch', 'flow']);
/** The number of the last delivery of all. */
const last = String((deliveries * 7919) % 1_000_000).padStart(6, '0');

describe.each(['never analysed', 'analysed'] as const)('a search among the deliveries of ten years, %s', (known) => {
  beforeAll(async () => {
    if (known === 'analysed') await owner.query('ANALYZE');
  });

  describe.each(['force_generic_plan', 'force_custom_plan'] as const)('%s', (plan) => {
    const asked = async (words: string) => {
      const told = await Explained.connect(database.ownerUrl, house.organisation, plan);
      const sought = { words, limit: 8, books: house.books };
      const found = await findDeliveries(told.client, house.organisation, sought);
      await findParties(told.client, house.organisation, sought);
      await findPeople(told.client, house.organisation, sought);
      const { scans } = told;
      await told.end();
      return { found, scans };
    };

    it.each([
      ['a whole number', `DN ${last}`, 1],
      ['a part of one', last.slice(1), 1],
      ['a number that nothing has', 'XX 99', 0],
    ])('reads no table for %s', async (_what, words, least) => {
      const { found, scans } = await asked(words);
      expect(found.length).toBeGreaterThanOrEqual(least);
      const read = scans.filter((s) => large.has(s.table) && (s.how === 'Seq Scan' || s.rows > most));
      expect(read.map((s) => `${s.how} on ${s.table}, ${s.rows} rows`)).toEqual([]);
    });
  });

  it('would tell of one that is read from end to end', async () => {
    const told = await Explained.connect(database.ownerUrl, house.organisation, 'force_custom_plan');
    await told.client.query("SELECT count(*) FROM delivery WHERE organisation = $1 AND note LIKE '%127%'", [house.organisation]);
    expect(told.scans.filter((s) => s.rows > most).map((s) => s.table)).toEqual(['delivery']);
    await told.end();
  });
});
