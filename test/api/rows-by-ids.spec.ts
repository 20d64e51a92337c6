import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { idsOf, rowsBy } from '../../apps/api/src/platform/database/index.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { Explained, type Scanned } from '../support/plans.js';
import { fillTenYears, type TenYears } from '../support/ten-years.js';

const organisation = '0190a6d0-7b3c-70ff-8000-000000000001';
/** A unit has so few rows of any table. */
const few = 20;

let database: TestDatabase;
let owner: pg.Client;
let told: Explained;
let house: TenYears;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  told = await Explained.connect(database.ownerUrl, organisation, 'force_generic_plan');
  for (const statement of statements) await told.client.query({ ...statement, values: [organisation, idsOf([organisation])] });
  house = await fillTenYears(owner, 20_000);
});
afterAll(async () => {
  await told.end();
  await owner.end();
  await database.drop();
});

const statements = [
  ['lot', 'id'],
  ['flow', 'source'],
  ['flow', 'target'],
  ['make', 'id'],
  ['batch', 'id'],
  ['run', 'id'],
  ['departure', 'lot'],
  ['returned', 'lot'],
  ['counted', 'lot'],
  ['on_counter', 'lot'],
  ['lot_identified', 'lot'],
  ['lot_identified', 'same'],
].map(([table = '', column = '']) => ({ name: `${table} by ${column}`, text: `SELECT t.* FROM (${rowsBy(table, column)}) t` }));
const said = ({ how, table, rows }: Scanned): string => `${how} on ${table}, ${rows} rows`;

/** A connection keeps the plan of a statement, a new house asks before it has anything, and nothing here is analysed in between. */
describe('a plan that was made while the tables were empty', () => {
  it.each(statements)('looks rows up once there are ten years: $name', async (statement) => {
    const unit = [
      house.lot('flour', 77),
      ...[231, 232, 233].flatMap((n) => [house.lot('dough', n), house.lot('run', n), house.lot('batch', n)]),
    ];
    told.forget();
    await told.client.query({ ...statement, values: [organisation, idsOf(unit)] });
    expect(told.scans.length).toBeGreaterThan(0);
    expect(told.scans.filter((s) => s.how === 'Seq Scan' || s.rows > few).map(said)).toEqual([]);
  });
});
