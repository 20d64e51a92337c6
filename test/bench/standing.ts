import pg from 'pg';
import { servicePool, Tenancy } from '../../apps/api/dist/platform/database/index.js';
import { noteClear } from '../../apps/api/dist/platform/ledger/clear-lots.js';
import { standingOf } from '../../apps/api/dist/modules/standing/index.js';
import type { BookRef } from '../../apps/api/dist/platform/ledger/index.js';
import { chain, fillTenYears, type TenYears } from '../support/ten-years.js';
import { percentile, timedAsync, type Row } from './_measure.js';
import { benchDatabase } from './_service.js';

const times = Number(process.env['BENCH_PAIRS'] ?? 15);
const at = '2026-12-01T00:00:00.000Z';

/**
 * How lots stand with ten years behind them, as the door and every screen ask it, against one indexed look-up over the same connection: a starter of its
 * first month and of its last day, and a night of sixty batches; before it is noted which lots are clear, and after.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const url = await database.url('standing');
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  const house = await fillTenYears(owner, 1_000_000);
  await owner.query('CHECKPOINT; ANALYZE');
  await owner.end();
  const pool = servicePool(database.serviceUrl(url), 1);
  const tenancy = new Tenancy(pool);
  try {
    const before = await asked(tenancy, house, 'followed to the end');
    const starter = house.lot('starter', chain.days);
    const noting = await timedAsync(() =>
      tenancy.inOrganisation(house.organisation, (client) => noteClear(client, house.organisation, [starter], new Date(at))),
    );
    const after = await asked(tenancy, house, 'clear lots noted');
    return [...before, { what: 'to note them all, once', 'p50 ms': noting }, ...after];
  } finally {
    await pool.end();
    await database.stop();
  }
}

async function asked(tenancy: Tenancy, house: TenYears, how: string): Promise<Row[]> {
  const { organisation } = house;
  const books = house.books.map((id): BookRef => ({ organisation, id, type: 'site', zone: 'Europe/London' }));
  const night = Array.from({ length: 60 }, (_, i) => house.lot('batch', house.units * 3 - i));
  const questions: readonly (readonly [string, readonly string[]])[] = [
    ['a starter after a month', [house.lot('starter', 30)]],
    ['a starter after ten years', [house.lot('starter', chain.days)]],
    ['a night of sixty batches', night],
  ];
  const rows: Row[] = [];
  for (const [what, lots] of questions) {
    const [mine, trips]: [number[], number[]] = [[], []];
    for (let i = 0; i < times; i += 1) {
      mine.push(await timedAsync(() => tenancy.reading(organisation, (client) => standingOf(client, books, lots, at))));
      trips.push(
        await timedAsync(() =>
          tenancy.reading(organisation, (client) =>
            client.query('SELECT * FROM lot WHERE organisation = $1 AND id = $2', [organisation, lots[0]]),
          ),
        ),
      );
    }
    const [p50, trip] = [percentile(mine, 0.5), percentile(trips, 0.5)];
    rows.push({ what, how, 'p50 ms': p50, 'p95 ms': percentile(mine, 0.95), 'look-up ms': trip, 'of look-up': p50 / trip });
  }
  return rows;
}
