import { dayBounds } from '@bakehouse/kernel';
import pg from 'pg';
import { CounterService } from '../../apps/api/dist/modules/counter/counter.service.js';
import { deliveriesBetween, openAtSite } from '../../apps/api/dist/modules/goods/goods.query.js';
import { nightRows } from '../../apps/api/dist/modules/night/night.query.js';
import { heldAtSite, heldLots, standingOf } from '../../apps/api/dist/modules/standing/index.js';
import { SettableClock } from '../../apps/api/dist/platform/clock/index.js';
import { servicePool, Tenancy } from '../../apps/api/dist/platform/database/index.js';
import { Books } from '../../apps/api/dist/platform/ledger/index.js';
import { letGo, watchAll } from '../../apps/api/dist/platform/ledger/on-watch.js';
import { fillNights, lastNight, nightNow } from '../support/years-of-nights.js';
import { percentile, timedAsync, type Row } from './_measure.js';
import type { benchDatabase } from './_service.js';

const pairs = Number(process.env['BENCH_PAIRS'] ?? 40);
const histories: readonly (readonly [string, number])[] = [
  ['a week', 7],
  ['a year', 365],
  ['ten years', 3_650],
];

interface Screens {
  readonly ask: Readonly<Record<string, () => Promise<unknown>>>;
  readonly end: () => Promise<void>;
}

/**
 * Each screen's questions of the same last night, with a week of records behind it, a year and ten years, taken in turn; the ratio is to the week. Over the
 * service's own connections, without HTTP, which would add the same to both.
 */
export async function screensWithHistory(database: Awaited<ReturnType<typeof benchDatabase>>): Promise<Row[]> {
  const houses: (readonly [string, Screens])[] = [];
  for (const [what, days] of histories) houses.push([what, await screensOf(database, days)]);
  const [week] = houses;
  if (!week) return [];
  const rows: Row[] = [];
  for (const screen of Object.keys(week[1].ask)) {
    const times = new Map<string, number[]>(houses.map(([what]) => [what, []]));
    for (let i = -3; i < pairs; i += 1)
      for (const [what, { ask }] of houses) {
        const ms = await timedAsync(() => ask[screen]?.() ?? Promise.resolve());
        if (i >= 0) times.get(what)?.push(ms);
      }
    const first = percentile(times.get(week[0]) ?? [], 0.5);
    for (const [what, ms] of times) {
      const p50 = percentile(ms, 0.5);
      rows.push({ what: screen, 'behind it': what, 'p50 ms': p50, 'p99 ms': percentile(ms, 0.99), 'of a week': p50 / first });
    }
  }
  for (const [, { end }] of houses) await end();
  return rows;
}

async function screensOf(database: Awaited<ReturnType<typeof benchDatabase>>, days: number): Promise<Screens> {
  const url = await database.url(`nights${days}`);
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  const { organisation, site: id, batches } = await fillNights(owner, days);
  // as after a rebuild, and the first record since
  await watchAll(owner, organisation);
  let last: string | null = null;
  do last = await letGo(owner, organisation, last);
  while (last !== null);
  await owner.query('VACUUM ANALYZE');
  await owner.end();
  const pool = servicePool(database.serviceUrl(url), 1);
  const tenancy = new Tenancy(pool);
  const books = new Books(tenancy);
  const [all, site] = [await books.all(organisation), await books.site(organisation, id)];
  const counter = new CounterService(tenancy, books, new SettableClock(nightNow));
  const night = dayBounds(lastNight, 'Europe/London', '00:00', { before: 2, after: 1 });
  const month = dayBounds(lastNight, 'Europe/London', '00:00', { before: 6, after: 0 });
  const ask = {
    night: () =>
      tenancy.reading(organisation, async (client) => {
        await nightRows(client, site, night.from, night.until);
        await heldLots(client, all, organisation, nightNow);
      }),
    'night, its rows alone': () => tenancy.reading(organisation, (client) => nightRows(client, site, night.from, night.until)),
    counter: () => counter.today(organisation, id),
    open: () =>
      tenancy.reading(organisation, async (client) => {
        await openAtSite(client, site, nightNow);
        await heldAtSite(client, all, site, nightNow);
      }),
    'goods in, a week of it': () =>
      tenancy.reading(organisation, async (client) => {
        const found = await deliveriesBetween(client, site, month.from, month.until);
        await standingOf(client, all, found.flatMap((d) => d.lines.map((l) => l.lot)), nightNow); // prettier-ignore
      }),
    'standing of a night': () => tenancy.reading(organisation, (client) => standingOf(client, all, batches, nightNow)),
  };
  return { ask, end: () => pool.end() };
}
