import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { endsOf } from '../../apps/api/src/modules/trace/ends.query.js';
import { reachableGraph } from '../../apps/api/src/modules/trace/reach.query.js';
import { besideOf, wentOf } from '../../apps/api/src/modules/trace/went.query.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { bareHouse } from '../support/bare-house.js';
import { fillScope } from '../support/large-scope.js';
import { Explained } from '../support/plans.js';

/** Each of the tables that a look-up for one lot may not read from end to end has so many rows or more. */
const many = 400;
let database: TestDatabase;
let owner: pg.Client;
let organisation: string;
let flour: string;
let lots: number;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  const house = await bareHouse(owner);
  ({ organisation } = house);
  ({ flour, lots } = await fillScope(owner, organisation, house.site, 3_000));
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

/** All that a trace of a flour asks, with what its doughs were divided into: behind row-level security, as the service asks. */
async function traced(client: pg.ClientBase): Promise<void> {
  const { reached, beside } = await reachableGraph(client, organisation, [flour], 'forward', true);
  await endsOf(client, organisation, [...reached, ...beside]);
  await wentOf(client, organisation, reached);
  await besideOf(client, organisation, reached);
}

describe.each(['never analysed', 'analysed'] as const)('a trace of very many lots, %s', (known) => {
  beforeAll(async () => {
    if (known === 'analysed') await owner.query('ANALYZE');
  });

  it.each(['force_generic_plan', 'force_custom_plan'] as const)('%s, reads no table for each lot', async (plan) => {
    const told = await Explained.connect(database.ownerUrl, organisation, plan);
    await traced(told.client);
    const most = (asked: boolean): number => (asked ? 2 * lots : many);
    const read = told.scans.filter((s) => s.rows >= most(s.byIds) && !['Function Scan', 'CTE Scan', 'WorkTable Scan'].includes(s.how));
    await told.end();
    expect(told.statements).toBeGreaterThan(10);
    expect(read.map(({ how, table, rows, statement }) => `${how} on ${table}, ${rows} rows: ${statement.trim().slice(0, 60)}`)).toEqual([]);
  });
});
