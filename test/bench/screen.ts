import Fastify from 'fastify';
import pg from 'pg';
import { createApp } from '../../apps/api/dist/app.js';
import { found } from '../../apps/api/dist/demo/found.js';
import { Caller } from '../../apps/api/dist/demo/run/caller.js';
import { DoorOverHttp } from '../../apps/api/dist/demo/run/door-over-http.js';
import { nightStatement } from '../../apps/api/dist/modules/night/night.query.js';
import { SettableClock, type Clock } from '../../apps/api/dist/platform/clock/index.js';
import { readConfig } from '../../apps/api/dist/platform/config/index.js';
import { dayBounds } from '@bakehouse/kernel';
import { queriesDuring } from '../support/queries-during.js';
import { readingEntry } from './_entries.js';
import { percentile, timedAsync, type Row } from './_measure.js';
import { screensWithHistory } from './_screens.js';
import { benchDatabase } from './_service.js';

const pairs = Number(process.env['BENCH_PAIRS'] ?? 40);
/** Readings written on top of the demo's own night, in hundreds of the door's largest request. */
const larger = [0, 1_000, 4_000];

/**
 * One screen of the night over HTTP, at the demo's size and larger, against bare pg behind the same Fastify with the same statements in one round
 * trip: what session, fence, contract and sums of the screen cost on top. The number of queries is counted, and must not grow. Then each screen of one and the
 * same night with a week behind it and with ten years.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const ownerUrl = await database.url('screen');
  const config = readConfig({ SEED_DEMO: 'no', LOG_LEVEL: 'error' });
  const startApp = (clock: Clock) => createApp({ config, serviceUrl: database.serviceUrl(ownerUrl), clock });
  const founded = await found({ ownerUrl, startApp, say: () => undefined, now: new Date(Date.now()), weeks: 1 });
  const { created, sites, whole } = founded;
  const clock = new SettableClock(new Date(Date.now()));
  const app = await startApp(clock);
  const owner = new pg.Pool({ connectionString: ownerUrl, max: 1, pipeline: true });
  const { until: last, from: first } = dayBounds(whole.story.world.lastDay, 'Europe/London', '00:00', { before: 2, after: 1 });
  const bare = await bareServer(owner, [created.organisation, sites.bakehouse, first, last, []]);
  try {
    await app.listen(0, '127.0.0.1');
    const url = (await app.getUrl()).replace('localhost', '127.0.0.1');
    const door = new DoorOverHttp(new Caller(url), clock, created.organisation, whole.story.person, sites);
    const lead = await door.callerOf('owner');
    const path = `/sites/${sites.bakehouse}/night?day=${whole.story.world.lastDay}`;
    const mine = () => lead.file(path);
    const theirs = async () => {
      const response = await fetch(bare.url);
      if (!response.ok) throw new Error(await response.text());
      return new Uint8Array(await response.arrayBuffer());
    };
    const rows: Row[] = [];
    let written = 0;
    for (const readings of larger) {
      for (; written < readings; written += 200) {
        const results = await door.send(
          'owner',
          'bakehouse',
          Array.from({ length: 200 }, () => readingEntry(sites.bakehouse)),
        );
        if (results.some(({ as }) => as !== 'recorded')) throw new Error(JSON.stringify(results.find(({ as }) => as !== 'recorded')));
      }
      await owner.query('ANALYZE');
      rows.push(await measured(readings === 0 ? 'the demo’s night' : `with ${readings} readings more`, mine, theirs));
    }
    return [...rows, ...(await screensWithHistory(database))];
  } finally {
    await bare.close();
    await app.close();
    await owner.end();
    await database.stop();
  }
}

type Ask = () => Promise<Uint8Array>;

async function measured(what: string, mine: Ask, theirs: Ask): Promise<Row> {
  const bytes = (await mine()).length;
  await theirs();
  const queries = await queriesDuring(mine);
  const [ours, bare]: [number[], number[]] = [[], []];
  for (let i = 0; i < pairs; i += 1) {
    if (i % 2 === 0) ours.push(await timedAsync(mine));
    bare.push(await timedAsync(theirs));
    if (i % 2 === 1) ours.push(await timedAsync(mine));
  }
  return {
    what,
    kB: Math.round(bytes / 1024),
    queries,
    'p50 ms': percentile(ours, 0.5),
    'p99 ms': percentile(ours, 0.99),
    'bare p50 ms': percentile(bare, 0.5),
    ratio: percentile(
      ours.map((ms, i) => ms / (bare[i] ?? Number.NaN)),
      0.5,
    ),
  };
}

/** The same statements, all at once on one connection, and what they gave as JSON. */
async function bareServer(
  pool: pg.Pool,
  values: readonly (string | readonly string[])[],
): Promise<{ url: string; close: () => Promise<void> }> {
  const server = Fastify();
  server.get('/', async () => {
    const client = await pool.connect();
    try {
      return (await client.query({ name: 'bare night', text: nightStatement, values: [...values] })).rows;
    } finally {
      client.release();
    }
  });
  return { url: await server.listen({ port: 0, host: '127.0.0.1' }), close: () => server.close() };
}
