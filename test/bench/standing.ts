import pg from 'pg';
import { servicePool, Tenancy } from '../../apps/api/dist/platform/database/index.js';
import { noteClear } from '../../apps/api/dist/platform/ledger/clear-lots.js';
import { followedStandingOf, standingOf } from '../../apps/api/dist/modules/standing/index.js';
import type { BookRef } from '../../apps/api/dist/platform/ledger/index.js';
import { chain, fillTenYears, type TenYears } from '../support/ten-years.js';
import { percentile, timedAsync, type Row } from './_measure.js';
import { benchDatabase } from './_service.js';

const times = Number(process.env['BENCH_PAIRS'] ?? 15);
const at = '2026-12-01T00:00:00.000Z';

/**
 * How lots stand with ten years behind them against one indexed look-up over the same connection: a starter of its first month and of its last day, and a
 * night of sixty batches. Followed upstream, as the door decides, before it is noted which lots are clear and after; and from what is open onwards, as a page
 * asks: where nothing is, where forty other lots are on hold, where one of the night is, and where a flour is that a starter's chain came of.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const url = await database.url('standing');
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  const house = await fillTenYears(owner, 1_000_000);
  await owner.query('CHECKPOINT; ANALYZE');
  const pool = servicePool(database.serviceUrl(url), 1);
  const tenancy = new Tenancy(pool);
  try {
    const before = await asked(tenancy, house, 'followed to the end', followedStandingOf);
    const starter = house.lot('starter', chain.days);
    const noting = await timedAsync(() =>
      tenancy.inOrganisation(house.organisation, (client) => noteClear(client, house.organisation, [starter], new Date(at))),
    );
    const after = await asked(tenancy, house, 'clear lots noted', followedStandingOf);
    const rows: Row[] = [...before, { what: 'to note them all, once', 'p50 ms': noting }, ...after];
    rows.push(...(await asked(tenancy, house, 'nothing is open', standingOf)));
    for (const [how, held] of holdsOf(house)) {
      await holdLots(owner, house, held);
      rows.push(...(await asked(tenancy, house, how, standingOf)));
    }
    return rows;
  } finally {
    await owner.end();
    await pool.end();
    await database.stop();
  }
}

/** What is on hold besides, one after the other. */
const holdsOf = (house: TenYears): readonly (readonly [string, readonly string[]])[] => [
  ['forty others are on hold', Array.from({ length: 40 }, (_, i) => house.lot('flour', i + 100))],
  ['and one of the night', [house.lot('batch', house.units * 3)]],
  ['and the first starter', [house.lot('starter', 0)]],
];

/** Puts lots on hold as the owner of the tables writes it, each on watch as the door would have noted it. */
async function holdLots(owner: pg.Client, { organisation, books: [book] }: TenYears, lots: readonly string[]): Promise<void> {
  await owner.query(
    `INSERT INTO hold (organisation, book, id, entry, seq, lot, because, at)
     SELECT $1, $2, md5('hold' || l)::uuid, md5('hold' || l)::uuid, 1, l, 'glass', $4 FROM unnest($3::uuid[]) l`,
    [organisation, book, lots, at],
  );
  await owner.query(
    `INSERT INTO on_watch (organisation, id) SELECT $1, n FROM unnest($2::uuid[]) l CROSS JOIN LATERAL (VALUES (l), (md5('hold' || l)::uuid)) v(n)
     ON CONFLICT DO NOTHING`,
    [organisation, lots],
  );
}

async function asked(tenancy: Tenancy, house: TenYears, how: string, standing: typeof standingOf): Promise<Row[]> {
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
      mine.push(await timedAsync(() => tenancy.reading(organisation, (client) => standing(client, books, lots, at))));
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
