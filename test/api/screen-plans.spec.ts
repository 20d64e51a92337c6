import { dayBounds } from '@bakehouse/kernel';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { batchesOfToday, intoLots, openings, touchedBefore } from '../../apps/api/src/modules/counter/counter.query.js';
import { deliveriesBetween, openAtSite } from '../../apps/api/src/modules/goods/goods.query.js';
import { leftInLots } from '../../apps/api/src/modules/night/left-in-lots.query.js';
import { nightRows } from '../../apps/api/src/modules/night/night.query.js';
import { batchStandings, heldAtSite, standingOf } from '../../apps/api/src/modules/standing/index.js';
import type { BookRef } from '../../apps/api/src/platform/ledger/index.js';
import { letGo, watchAll } from '../../apps/api/src/platform/ledger/on-watch.js';
import { createTestDatabase, type TestDatabase } from '../support/database.js';
import { Explained } from '../support/plans.js';
import { fillNights, lastNight, nightNow, type Nights } from '../support/years-of-nights.js';

const days = 300;
let database: TestDatabase;
let owner: pg.Client;
let house: Nights;
let site: BookRef;
beforeAll(async () => {
  database = await createTestDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  house = await fillNights(owner, days);
  site = { organisation: house.organisation, id: house.site, type: 'site', zone: 'Europe/London' };
  await watchAll(owner, house.organisation);
  let last: string | null = null;
  do last = await letGo(owner, house.organisation, last);
  while (last !== null);
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

const night = dayBounds(lastNight, 'Europe/London', '00:00', { before: 2, after: 1 });
const today = dayBounds(lastNight, 'Europe/London', '00:00');
type Question = (client: pg.ClientBase) => Promise<unknown>;
const questions: readonly (readonly [string, Question])[] = [
  ['the night', (c) => nightRows(c, site, night.from, night.until)],
  ['what is left', (c) => leftInLots(c, [site], house.lots, nightNow)],
  ['what is on hold', (c) => heldAtSite(c, [{ ...site, name: 'Mill Lane', dayStarts: '00:00' }], site, nightNow)],
  ['what else is open', (c) => openAtSite(c, site, nightNow)],
  ['deliveries', (c) => deliveriesBetween(c, site, night.from, night.until)],
  ['how lots stand', (c) => standingOf(c, [site], house.batches, nightNow)],
  ['how batches stand', (c) => batchStandings(c, [site], house.batches, nightNow)],
  ['the counter: batches', (c) => batchesOfToday(c, site, today.from, today.until)],
  ['the counter: what went in', (c) => intoLots(c, house.organisation, house.batches)],
  ['the counter: the same bowl', (c) => touchedBefore(c, house.organisation, house.batches)],
  ['the counter: openings', (c) => openings(c, site, today.from, today.until)],
];
/** So much of a table that is read row after row is all of it, or near it. */
const most = 5_000;

describe.each(['never analysed', 'analysed'] as const)('a night with many behind it, %s', (known) => {
  beforeAll(async () => {
    if (known === 'analysed') await owner.query('ANALYZE');
  });

  describe.each(['force_generic_plan', 'force_custom_plan'] as const)('%s', (plan) => {
    it.each(questions)('%s reads no table', async (_what, ask) => {
      const told = await Explained.connect(database.ownerUrl, house.organisation, plan);
      await told.client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
      await ask(told.client);
      await told.client.query('COMMIT');
      const scans = told.scans.filter((s) => s.rows > most);
      await told.end();
      expect(scans.map(({ how, table, rows, statement }) => `${how} on ${table}, ${rows} rows: ${statement.trim().slice(0, 60)}`)).toEqual(
        [],
      );
    });
  });
});
