import { statfs } from 'node:fs/promises';
import type { Client } from 'pg';
import type { CommandContext } from './command.js';
import { aboutHouse, aboutService, databaseClock, houseFacts, type Finding } from './modules/doctor/index.js';
import { keyState, newestDay } from './modules/seals/index.js';
import { backupState } from './platform/backups/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { isOurOwn, type Config } from './platform/config/index.js';
import { inHouse, connected, type ServiceDatabase } from './platform/database/index.js';
import { everyOrganisation } from './platform/ledger/every-book.query.js';

/**
 * Says in words what is wrong with the service and with each house on it, and what to do. It reads no record's body: that is what `verify` is for.
 * Exit code 0 where nothing is wrong, 1 where something is.
 */
export async function doctorCommand(
  database: Pick<ServiceDatabase, 'serviceUrl'>,
  { config, say }: Pick<CommandContext, 'config' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  return connected(database.serviceUrl, async (client) => {
    const found: Finding[] = [];
    const tell = (of: string, findings: readonly Finding[]): void => {
      say(of);
      if (findings.length === 0) say('  nothing to say');
      for (const { weight, says } of findings) say(`  ${weight === 'wrong' ? 'WRONG' : 'note '}  ${says}`);
      found.push(...findings);
    };
    tell('The service', aboutService(await serviceFacts(client, config, clock)));
    const witnesses = (config.WITNESSES ?? []).map(({ key }) => key);
    const houses = await everyOrganisation(client);
    for (const { id, name } of houses) {
      const now = clock.now();
      tell(name, aboutHouse(await inHouse(client, id, () => houseFacts(client, id, now.toISOString(), witnesses)), now));
    }
    if (houses.length === 0) say('There is no house yet: npm run records -- begin, or npm start for the demo.');
    const wrongs = found.filter((f) => f.weight === 'wrong').length;
    say(wrongs === 0 ? 'Nothing is wrong. Whether the records are unchanged: npm run records -- verify' : `${wrongs} to put right.`);
    return wrongs === 0 ? 0 : 1;
  });
}

async function serviceFacts(client: Client, config: Config, clock: Clock): Promise<Parameters<typeof aboutService>[0]> {
  const clockMs = Date.parse(await databaseClock(client)) - clock.now().getTime();
  const disk = isOurOwn(config) ? await statfs(config.DATA_DIR).catch(() => undefined) : undefined;
  return {
    freeMb: disk ? Math.floor((disk.bavail * disk.bsize) / (1024 * 1024)) : null,
    leastFreeMb: config.LEAST_FREE_MB,
    clockMs,
    sealKey: await keyState(client, config),
    backups: await backupState(config, clock.now()),
    sealsFolder: config.SEALS_DIR === undefined ? null : await sealsIn(config.SEALS_DIR, clock),
    witnesses: config.WITNESSES?.length ?? 0,
    servedBeyondThisMachine: !['127.0.0.1', '::1', 'localhost'].includes(config.HOST),
    behindProxy: config.TRUST_PROXY !== undefined || config.TLS_CERT_FILE !== undefined,
  };
}

async function sealsIn(folder: string, clock: Clock): Promise<{ folder: string; newest: string | null; today: string }> {
  const newest = await newestDay(folder).catch(() => undefined);
  return { folder, newest: newest ?? null, today: clock.now().toISOString().slice(0, 10) };
}
