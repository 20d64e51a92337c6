import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import * as z from 'zod';
import { createApp } from '../../app.js';
import { ledgerCommand } from '../../records.command.js';
import { SettableClock, systemClock, type Clock } from '../../platform/clock/index.js';
import { readConfig, type Config } from '../../platform/config/index.js';
import { openDatabase, type Database } from '../../platform/database/index.js';
import { errorMessage } from '../../platform/errors/index.js';
import { uuidv7 } from '../../platform/ids/index.js';
import { found } from '../found.js';
import { Caller } from './caller.js';
import { DoorOverHttp } from './door-over-http.js';
import { must, runNight } from './night.js';
import { fetchPapers, runRecall } from './recall.js';

const usage = 'npm run demo -- --out DIR [--weeks 1 to 4] [--not-a-practice] [--keep]';
const asked = z.object({
  out: z.string().min(1),
  weeks: z.coerce.number().int().min(1).max(4),
  keep: z.boolean(),
  'not-a-practice': z.boolean(),
});
type Say = (line: string) => void;

/** The main job from nothing without a person. Answers with the exit code; whatever was started for it is ended and cleared away. */
export async function demoCommand(words: readonly string[], say: Say): Promise<number> {
  const options = readOptions(words);
  if (!options) {
    process.stderr.write(`${usage}\n`);
    return 2;
  }
  const out = path.resolve(options.out);
  try {
    await mkdir(out, { recursive: true });
  } catch (error) {
    process.stderr.write(`${out} cannot be made, so nothing was begun: ${errorMessage(error)}\nName another folder: ${usage}\n`);
    return 2;
  }
  const folder = await mkdtemp(path.join(tmpdir(), 'bakehouse-demo-'));
  let database: Database | undefined;
  const interrupted = new Promise<never>((_, reject) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => reject(new Error('ended before it was done')));
  });
  try {
    const config = readConfig({ DATA_DIR: path.join(folder, 'data'), PORT: '0', SEED_DEMO: 'no', LOG_LEVEL: 'error' });
    say('starting a database of its own');
    database = await openDatabase(config, { say: (line) => say(`  ${line}`) });
    const work = run(database, config, { ...options, out }, say);
    work.catch(() => undefined); // when it is interrupted nobody waits for it any more
    await Promise.race([work, interrupted]);
    return 0;
  } catch (error) {
    process.stderr.write(`\nThe demo did not come to its end: ${errorMessage(error)}\n`);
    return 1;
  } finally {
    await database?.stop();
    if (options.keep) say(`kept: DATA_DIR=${path.join(folder, 'data')} npm start`);
    else await rm(folder, { recursive: true, force: true, maxRetries: 20 });
  }
}

function readOptions(words: readonly string[]): z.infer<typeof asked> | undefined {
  try {
    const { values } = parseArgs({
      args: [...words],
      options: {
        out: { type: 'string', default: 'out' },
        weeks: { type: 'string', default: '1' },
        keep: { type: 'boolean', default: false },
        'not-a-practice': { type: 'boolean', default: false },
      },
    });
    return asked.parse(values);
  } catch {
    return undefined;
  }
}

async function run(database: Database, config: Config, options: z.infer<typeof asked>, say: Say): Promise<void> {
  const startApp = (clock: Clock) => createApp({ config, serviceUrl: database.serviceUrl, clock });
  const founded = await found({
    ownerUrl: database.ownerUrl,
    startApp,
    say,
    now: systemClock.now(),
    weeks: options.weeks,
    withoutLastNight: true,
  });
  const { whole, created, sites } = founded;
  say(`  ${founded.entries} records`);
  const clock = new SettableClock(new Date(whole.lastNight[0]?.typedMs ?? systemClock.now().getTime()));
  const app = await startApp(clock);
  try {
    await app.listen(0, '127.0.0.1');
    const door = new DoorOverHttp(
      new Caller((await app.getUrl()).replace('localhost', '127.0.0.1')),
      clock,
      created.organisation,
      whole.story.person,
      sites,
    );
    say(`the night of ${whole.story.world.lastDay}, over HTTP`);
    const entries = await runNight(founded, door, clock, say);
    const requests = door.requests;
    clock.set(new Date(Math.max(clock.now().getTime(), systemClock.now().getTime())));
    const lead = await door.callerOf('owner');
    say(`the importer calls: ground almond, lot A77, Salmonella${options['not-a-practice'] ? '' : ' (a practice, and marked so)'}`);
    const { recall, seconds } = await runRecall(lead, uuidv7(clock.now()), !options['not-a-practice']);
    const summary = summaryOf({ founded: founded.entries, entries, requests, seconds, recall, name: founded.name });
    for (const line of summary) say(`  ${line}`);
    say(`its papers, into ${options.out}`);
    const papers = await fetchPapers({ lead, inspector: await door.callerOf('inspector') }, founded, recall.id, options.out);
    for (const paper of papers) say(`  ${paper}`);
    say('verifying the ledger');
    const verified: string[] = [];
    const faults = await ledgerCommand(database, {
      config,
      words: ['verify'],
      say: (line) => {
        verified.push(line);
        say(`  ${line}`);
      },
    });
    must(faults === 0, 'the ledger does not verify');
    await writeFile(path.join(options.out, 'summary.txt'), [...summary, '', ...papers, '', ...verified, ''].join('\n'));
    say('done: all of it held');
  } finally {
    await app.close();
  }
}

interface Measured {
  readonly founded: number;
  readonly entries: number;
  readonly requests: number;
  readonly seconds: number;
  readonly name: string;
  readonly recall: Awaited<ReturnType<typeof runRecall>>['recall'];
}

function summaryOf({ founded, entries, requests, seconds, recall, name }: Measured): string[] {
  const { trace } = recall;
  const [suspect] = trace.suspectBalances;
  const kg = (mg: number | null | undefined): string => (mg === null || mg === undefined ? 'not known' : `${(mg / 1e6).toFixed(2)} kg`);
  const share = suspect?.balance.accountedBasisPoints;
  return [
    `${name}: ${founded} records of history, then a night of ${entries} records in ${requests} requests over HTTP`,
    `from the lot number to the contact list: ${seconds.toFixed(2)} s`,
    `in scope: ${trace.lots.length} lots, ${trace.lots.filter((l) => l.certain).length} certain, the others possible`,
    `of the lot itself: received ${kg(suspect?.balance.received)}, used or sent ${kg(suspect?.balance.gone)}, on hand` +
      ` ${kg(suspect?.balance.onHand?.amount)}, unaccounted ${kg(suspect?.balance.unaccounted)}` +
      ` (${share === null || share === undefined ? 'share not known' : `${(share / 100).toFixed(2)} % accounted for`})`,
    `contact list: ${trace.contacts.map((e) => `${e.order}. ${e.name ?? 'no name'}${e.unattended ? ' (left unattended)' : ''}`).join('; ')}`,
  ];
}
