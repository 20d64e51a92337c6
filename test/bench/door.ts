import autocannon from 'autocannon';
import pg from 'pg';
import { readingEntry } from './_entries.js';
import { percentile, type Row } from './_measure.js';
import { benchDatabase, found, freePort, startProgram, type Founded } from './_service.js';

const tablets = 16;
const seconds = Number(process.env['BENCH_SECONDS'] ?? 5);
const rounds = Number(process.env['BENCH_ROUNDS'] ?? 3);

interface Load {
  readonly entriesPerRequest: number;
  readonly sites: readonly string[];
}

/** Sixteen tablets for some seconds: entries a second that were answered as recorded, and the slow end of the requests. */
async function press(base: string, token: string, { entriesPerRequest, sites }: Load): Promise<{ perSecond: number; p99: number }> {
  let next = 0;
  const result = await autocannon({
    url: base,
    connections: tablets,
    duration: seconds,
    requests: [
      {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        setupRequest: (request) => {
          const site = sites[next++ % sites.length] ?? '';
          return {
            ...request,
            path: `/api/v1/sites/${site}/entries`,
            body: JSON.stringify(Array.from({ length: entriesPerRequest }, () => readingEntry(site))),
          };
        },
      },
    ],
  });
  if (result.non2xx > 0 || result.errors > 0)
    throw new Error(`${result.non2xx} requests were refused, ${result.errors} failed: ${JSON.stringify(result.statusCodeStats)}`);
  return { perSecond: (result['2xx'] * entriesPerRequest) / result.duration, p99: result.latency.p99 };
}

async function analyse(url: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query('ANALYZE');
  await client.end();
}

/** The door over HTTP against bare pg behind the same Fastify, the same rows, in the same run; rounds in turn, medians of the ratios. */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const [oursUrl, bareUrl] = [await database.url('ours'), await database.url('bare')];
  const [ours, bare] = [await freePort(), await freePort()];
  const service = await startProgram(
    'apps/api/dist/main.js',
    { PORT: String(ours), DATABASE_URL: database.serviceUrl(oursUrl), SEED_DEMO: 'no', LOG_LEVEL: 'error' },
    'ready',
  );
  const base = `http://127.0.0.1:${ours}`;
  const house = await found(oursUrl, base, tablets);
  const other: Founded = await foundBare(bareUrl, house);
  const bareline = await startProgram(
    'test/bench/_bare-server.mjs',
    { PORT: String(bare), BARE_URL: bareUrl, BARE_ORGANISATION: other.organisation },
    'ready',
  );
  try {
    const rows: Row[] = [];
    for (const [what, entriesPerRequest, sites, target] of [
      ['16 tablets, one site', 1, 1, 0.5],
      ['16 tablets, 16 sites', 1, tablets, 0.5],
      ['requests of 50, one site', 50, 1, 0.4],
    ] as const) {
      const load: Load = { entriesPerRequest, sites: house.sites.slice(0, sites) };
      await press(base, house.token, load); // warm
      await press(`http://127.0.0.1:${bare}`, '', load);
      await Promise.all([analyse(oursUrl), analyse(bareUrl)]);
      const pairs: { mine: { perSecond: number; p99: number }; theirs: { perSecond: number; p99: number } }[] = [];
      for (let i = 0; i < rounds; i += 1)
        pairs.push({ mine: await press(base, house.token, load), theirs: await press(`http://127.0.0.1:${bare}`, '', load) });
      const middle = (pick: (p: (typeof pairs)[number]) => number): number => percentile(pairs.map(pick), 0.5);
      const ratio = middle((p) => p.mine.perSecond / p.theirs.perSecond);
      rows.push({
        what,
        'entries/s': Math.round(middle((p) => p.mine.perSecond)),
        'bare/s': Math.round(middle((p) => p.theirs.perSecond)),
        ratio,
        target,
        'p99 ms': middle((p) => p.mine.p99),
        'bare p99 ms': middle((p) => p.theirs.p99),
        verdict: ratio >= target ? 'within' : 'under',
      });
    }
    return rows;
  } finally {
    service.kill('SIGTERM');
    bareline.kill('SIGTERM');
    await new Promise((resolve) => service.once('exit', resolve));
    await database.stop();
  }
}

/** The same books in the other database, so that both have the same rows to update. */
async function foundBare(url: string, like: Founded): Promise<Founded> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query('INSERT INTO organisation (id, name, created_at) VALUES ($1, $2, now())', [like.organisation, 'Bare']);
  for (const site of like.sites)
    await client.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'bare', 'Europe/London')", [
      like.organisation,
      site,
    ]);
  await client.end();
  return like;
}
