import type { CommandContext } from './command.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { servicePool, Tenancy, type ServiceDatabase } from './platform/database/index.js';
import { Purge } from './platform/jobs/index.js';

/** Runs the daily purge now: deletes ordinary data that is past its age, as the service's role. */
export async function purgeCommand(
  { serviceUrl }: Pick<ServiceDatabase, 'serviceUrl'>,
  { config, say }: Pick<CommandContext, 'config' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  const pool = servicePool(serviceUrl, 1);
  try {
    for (const { what, count } of await new Purge(new Tenancy(pool), clock, config).run()) say(`${String(count).padStart(8)}  ${what}`);
    return 0;
  } finally {
    await pool.end();
  }
}
