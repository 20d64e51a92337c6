import pg from 'pg';
import { createApp } from '../../apps/api/dist/app.js';
import { systemClock } from '../../apps/api/dist/platform/clock/index.js';
import { readConfig } from '../../apps/api/dist/platform/config/index.js';
import { newId } from './_entries.js';
import { timedAsync, type Row } from './_measure.js';
import { benchDatabase, found } from './_service.js';
import { fillScope } from '../support/large-scope.js';

const sizes = (process.env['BENCH_LOTS'] ?? '2000,25000').split(',').map(Number);

/**
 * A recall case from end to end over HTTP: a flour in a season of doughs, runs and batches, most of which went to customers. How long it takes to open it, to
 * show it, to list the contacts and to make its papers; and a batch of another flour, which the open case does not reach, meanwhile.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  try {
    const rows: Row[] = [];
    for (const lots of sizes) rows.push(...(await ofSize(lots, await database.url(`recall_${lots}`), database.serviceUrl)));
    return rows;
  } finally {
    await database.stop();
  }
}

async function ofSize(about: number, ownerUrl: string, serviceUrl: (url: string) => string): Promise<Row[]> {
  const app = await createApp({
    config: readConfig({ SEED_DEMO: 'no', LOG_LEVEL: 'error' }),
    serviceUrl: serviceUrl(ownerUrl),
    clock: systemClock,
  });
  const owner = new pg.Client({ connectionString: ownerUrl });
  await owner.connect();
  try {
    await app.listen(0, '127.0.0.1');
    const url = (await app.getUrl()).replace('localhost', '127.0.0.1');
    const house = await found(ownerUrl, url, 1);
    const { flour, lots } = await fillScope(owner, house.organisation, house.sites[0] ?? '', about);
    await owner.query('ANALYZE');
    const ask = async (path: string, body?: unknown): Promise<Response> => {
      const response = await fetch(`${url}/api/v1${path}`, {
        method: body === undefined ? 'GET' : 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${house.token}` },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      if (!response.ok) throw new Error(`${path} answered ${response.status}: ${(await response.text()).slice(0, 200)}`);
      return response;
    };
    const recall = newId();
    const asked = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    const rows: Row[] = [];
    const step = async (what: string, work: () => Promise<number>): Promise<void> => {
      let [bytes, failed]: [number, unknown] = [0, undefined];
      const ms = await timedAsync(async () => {
        bytes = await work().catch((error: unknown) => {
          failed = error;
          return 0;
        });
      });
      console.error(`${lots} lots: ${what}, ${Math.round(ms)} ms`); // some steps take minutes
      rows.push({ what, lots, ms, kB: Math.round(bytes / 1024), failed: failed === undefined ? undefined : String(failed).slice(0, 120) });
    };
    const sizeOf = async (response: Response): Promise<number> => (await response.arrayBuffer()).byteLength;
    await step('the trace, nothing open', async () => sizeOf(await ask(`/lots/${flour}/trace?direction=forward&hazard=physical`)));
    await step('opening the case', async () => sizeOf(await ask('/recalls', asked)));
    await step('its page, with the contacts', async () => sizeOf(await ask(`/recalls/${recall}`)));
    await step('the night meanwhile', async () => sizeOf(await ask(`/sites/${house.sites[0] ?? ''}/night`)));
    await step('the spreadsheet', async () => sizeOf(await ask(`/recalls/${recall}/papers/recall.xlsx`)));
    await step('the paper to print', async () => sizeOf(await ask(`/recalls/${recall}/papers/recall.pdf`)));
    return rows;
  } finally {
    await app.close();
    await owner.end();
  }
}
