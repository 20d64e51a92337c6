import { fork } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as wait } from 'node:timers/promises';
import path from 'node:path';
import { readingEntry } from './_entries.js';
import { percentile, timedAsync, type Row } from './_measure.js';
import { benchDatabase, found, freePort, startProgram } from './_service.js';

const clients = Number(process.env['BENCH_CLIENTS'] ?? 1_000);
const rounds = Number(process.env['BENCH_ROUNDS'] ?? 5);
const readings = Number(process.env['BENCH_READINGS'] ?? 300);
/** As a tablet sends: one after the other, with a pause. */
const pauseMs = 20;

/**
 * What a tablet waits for its readings alone, and beside clients that send half a head, one byte at a time, read no answer or say nothing, and come again
 * when they are let go. In turn, in the same run; the clients are a process of their own and have an address of their own.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const [url, port] = [await database.url('ours'), await freePort()];
  const service = await startProgram(
    'apps/api/dist/main.js',
    { PORT: String(port), DATABASE_URL: database.serviceUrl(url), SEED_DEMO: 'no', LOG_LEVEL: 'error' },
    'ready',
  );
  try {
    const base = `http://127.0.0.1:${port}`;
    const { token, sites } = await found(url, base, 1);
    const [site = ''] = sites;
    const send = async (): Promise<void> => {
      const answer = await fetch(`${base}/api/v1/sites/${site}/entries`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        body: JSON.stringify([readingEntry(site)]),
      });
      if (!answer.ok || !(await answer.text()).includes('"recorded"')) throw new Error(`a reading was not recorded: ${answer.status}`);
    };
    const tablet = async (): Promise<number[]> => {
      const took: number[] = [];
      for (let i = 0; i < readings; i += 1) {
        took.push(await timedAsync(send));
        await wait(pauseMs);
      }
      return took;
    };
    await tablet(); // warm
    const [alone, beside]: [number[][], number[][]] = [[], []];
    let letGo = 0;
    for (let i = 0; i < rounds; i += 1) {
      alone.push(await tablet());
      const crowd = await came(port);
      beside.push(await tablet());
      letGo += await crowd.go();
    }
    const p99 = (of: readonly number[]): number => percentile(of, 0.99);
    return [
      {
        what: `a tablet beside ${clients} bad clients`,
        readings: readings * rounds,
        'let go': letGo,
        'p50 alone ms': percentile(alone.flat(), 0.5),
        'p50 beside ms': percentile(beside.flat(), 0.5),
        'p99 alone ms': p99(alone.flat()),
        'p99 beside ms': p99(beside.flat()),
        'p99 ratio': p99(beside.flat()) / p99(alone.flat()),
        target: 2,
      },
    ];
  } finally {
    service.kill('SIGTERM');
    await once(service, 'exit');
    await database.stop();
  }
}

/** The clients, in a process of their own so that what they cost is not counted as the tablet's. */
async function came(port: number): Promise<{ go: () => Promise<number> }> {
  const child = fork(path.join(import.meta.dirname, '_crowd-process.ts'), [String(port), String(clients)], {
    execArgv: ['--import', 'tsx'],
  });
  process.once('exit', () => child.kill('SIGKILL'));
  await once(child, 'message');
  return {
    go: async () => {
      child.send('go');
      const [letGo] = (await once(child, 'message')) as [number];
      await once(child, 'exit');
      return letGo;
    },
  };
}
