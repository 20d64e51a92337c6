import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { endsOf } from '../../apps/api/src/modules/trace/ends.query.js';
import { findLots } from '../../apps/api/src/modules/trace/find-lots.query.js';
import { heatOf } from '../../apps/api/src/modules/trace/heat.query.js';
import { allKnown } from '../../apps/api/src/modules/trace/known-lots.query.js';
import { reachableGraph } from '../../apps/api/src/modules/trace/reach.query.js';
import { besideOf, wentOf } from '../../apps/api/src/modules/trace/went.query.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { Explained, type Scanned } from '../support/plans.js';
import { chain, fillTenYears, type TenYears } from '../support/ten-years.js';

let database: TestDatabase;
let owner: pg.Client;
let house: TenYears;
/** The tables that hold more than a few lists of the house's own, with how many rows they have. */
const large = new Map<string, number>();
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  house = await fillTenYears(owner, 100_000);
  const { rows } = await owner.query<{ name: string }>(
    "SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace",
  );
  for (const { name } of rows) {
    const counted = await owner.query<{ n: number }>(`SELECT count(*)::int AS n FROM ${owner.escapeIdentifier(name)}`);
    const n = counted.rows[0]?.n ?? 0;
    if (n > 1_000) large.set(name, n);
  }
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

const named = ({ how, table, rows, statement }: Scanned): string => `${how} on ${table}, ${rows} rows: ${statement.trim().slice(0, 80)}`;
/** The most that one look-up gives here. */
const few = 100;
/** So many rows belong to one lot, where all lots of a question are looked up in one pass. */
const each = 2;
/** What reads a table instead of looking something up: row after row, or so much of it that it might as well. */
const readsATable = ({ how, table, rows, byIds }: Scanned, most = few): boolean =>
  large.has(table) && (how === 'Seq Scan' || rows > (byIds ? Math.max(most, each * asked) : most));
/** How many lots a question is about at most: the chain is the longest. */
const asked = chain.days + 1 + 2 * chain.breads;
/** A search looks at this many of the newest lots and batches on purpose. */
const newest = 4_000;

type Question = (client: pg.ClientBase) => Promise<unknown>;
const questions: readonly (readonly [string, number, Question, number])[] = [
  ['forward from a flour', 4, (c) => reachableGraph(c, house.organisation, [house.lot('flour', 77)], 'forward', false), few],
  ['forward with what shared a bowl', 4, (c) => reachableGraph(c, house.organisation, [house.lot('flour', 77)], 'forward', true), few],
  ['backward from a batch', 4, (c) => reachableGraph(c, house.organisation, [house.lot('batch', 231)], 'backward', false), few],
  ['forward along the chain', 4, (c) => reachableGraph(c, house.organisation, [house.lot('starter', 0)], 'forward', true), few],
  ['backward along the chain', 4, (c) => reachableGraph(c, house.organisation, [house.lot('starter', chain.days)], 'backward', false), few],
  ['where one went', 6, (c) => endsOf(c, house.organisation, [house.lot('batch', 231)]), few],
  ['where many went', 6, (c) => endsOf(c, house.organisation, many()), few],
  ['what surely went of many', 4, (c) => wentOf(c, house.organisation, many()), few],
  ['what stands beside many', 1, (c) => besideOf(c, house.organisation, many()), few],
  ['how one was baked', 1, (c) => heatOf(c, house.organisation, under([house.lot('batch', 231)])), few],
  ['how many were baked', 1, (c) => heatOf(c, house.organisation, under(many())), few],
  ['whether they are known', 1, (c) => allKnown(c, house.organisation, many()), few],
  ['a search by code', 2, (c) => findLots(c, house.organisation, { words: 'L77', books: house.books, limit: 50 }), newest],
  ['a search by name', 2, (c) => findLots(c, house.organisation, { words: 'sour', books: house.books.slice(0, 1), limit: 50 }), newest],
  ['a search for nothing', 2, (c) => findLots(c, house.organisation, { words: 'nowhere', books: house.books, limit: 50 }), newest],
];
const many = (): string[] => Array.from({ length: 5_000 }, (_, i) => house.lot('batch', i + 3));
const under = (lots: readonly string[]) => lots.map((lot) => ({ lot, subject: lot }));

const plans = ['force_generic_plan', 'force_custom_plan'] as const;
describe.each(['never analysed', 'analysed'] as const)('ten years, %s', (known) => {
  const connections = new Map<string, Explained>();
  beforeAll(async () => {
    if (known === 'analysed') await owner.query('ANALYZE');
    for (const plan of plans) connections.set(plan, await Explained.connect(database.ownerUrl, house.organisation, plan));
  });
  afterAll(async () => {
    for (const connection of connections.values()) await connection.end();
  });
  const explained = (plan: string): Explained => {
    const found = connections.get(plan);
    if (!found) throw new Error(plan);
    found.forget();
    return found;
  };

  describe.each(plans)('%s', (plan) => {
    it.each(questions)('%s reads no table', async (_what, statements, ask, most) => {
      const told = explained(plan);
      await told.client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
      await ask(told.client);
      await told.client.query('COMMIT');
      expect(told.statements).toBeGreaterThanOrEqual(statements - 1);
      expect(told.scans.filter((s) => large.has(s.table)).length).toBeGreaterThan(0);
      expect(told.scans.filter((s) => readsATable(s, most)).map(named)).toEqual([]);
    });

    it.each([
      ['a scan', "SELECT count(*) FROM lot WHERE organisation = $1 AND name ILIKE '%sour%'", 'lot'],
      ['an index read from end to end', 'SELECT source FROM flow WHERE organisation = $1 ORDER BY source', 'flow'],
    ])('would not pass %s', async (_what, text, table) => {
      const told = explained(plan);
      await told.client.query(text, [house.organisation]);
      expect(told.scans.filter((s) => readsATable(s)).map((s) => s.table)).toEqual([table]);
    });
  });
});
