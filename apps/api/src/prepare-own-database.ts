import type { Prepared } from './own-database.js';
import { readConfig, type Config } from './platform/config/index.js';
import { openDatabase, type Database } from './platform/database/for-tools.js';
import { errorMessage } from './platform/errors/index.js';

/**
 * The process that has the owner's login of our own database: starts it, brings it up to date, fills it with the demo where that is asked for, hands the
 * service's login to the process that began it, and ends. The database goes on.
 */
let stopped = false;
let opened: Database | undefined;
process.once('disconnect', () => process.exit(1)); // the service was killed: the next start takes over what is there
process.once('message', () => {
  stopped = true;
  void opened?.stop(); // what is under way fails for want of it
});

const tell = (message: Prepared): Promise<void> =>
  new Promise((resolve) => {
    if (process.send) process.send(message, () => resolve());
    else resolve();
  });
const say = (line: string): void => void tell({ says: line });

async function prepare(config: Config): Promise<Prepared> {
  const database = (opened = await openDatabase(config, { say }));
  try {
    for (const name of database.applied) say(`migrated: ${name}`);
    const lines = config.SEED_DEMO && !stopped ? await seed(database, config) : [];
    if (stopped) throw new Error('ended before it was done');
    return { serviceUrl: database.serviceUrl, lines: [...lines] };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

async function seed(database: Database, config: Config): Promise<readonly string[]> {
  const { seedIfEmpty } = await import('./demo/index.js');
  const startApp: Parameters<typeof seedIfEmpty>[0]['startApp'] = async (clock) => {
    const { createApp } = await import('./app.js');
    return createApp({ config, serviceUrl: database.serviceUrl, clock });
  };
  return seedIfEmpty({ database, say, startApp });
}

try {
  await tell(await prepare(readConfig()));
} catch (error) {
  await tell({ failed: errorMessage(error) });
}
process.exit(0);
