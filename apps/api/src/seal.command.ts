import type { CommandContext } from './command.js';
import { newKeyCommand } from './new-key.command.js';
import { DailySeals, demandSealKeyOf, leaveHouse, SealKey } from './modules/seals/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import type { Config } from './platform/config/index.js';
import { connected, type ServiceDatabase } from './platform/database/index.js';
import { errorMessage } from './platform/errors/index.js';

type Service = Pick<ServiceDatabase, 'serviceUrl'>;
type Settings = Pick<Config, 'SEALS_DIR' | 'WITNESSES' | 'SEAL_KEY' | 'DATA_DIR'>;

/** Seals every book now, writes the file of the day and asks the witnesses. Ends with 1 where something failed, 2 where a witness has seen another history. */
export async function sealCommand(
  { serviceUrl }: Service,
  { config, words, say }: { readonly config: Settings } & Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  if (!words.includes('--key-lost')) {
    const unusable = await connected(serviceUrl, (client) => demandSealKeyOf(client, config)).catch(errorMessage);
    if (unusable !== undefined) {
      say(`FAILED  ${unusable}`);
      return 1;
    }
  }
  if (words.length > 0) return newKeyCommand({ serviceUrl }, { config, words, say }, clock);
  const key = new SealKey(config);
  const { done, failed, alarms } = await connected(serviceUrl, (client) => leaveHouse(client, { config, key, clock, now: true }));
  for (const line of done) say(line);
  for (const line of failed) say(`FAILED  ${line}`);
  for (const line of alarms) say(`WRONG  ${line}`);
  if (config.SEALS_DIR === undefined && config.WITNESSES === undefined)
    say('The books are sealed, and no seal left the house: set SEALS_DIR or WITNESSES, or print a paper and give it away.');
  return alarms.length > 0 ? 2 : failed.length > 0 ? 1 : 0;
}

/** What the service does by itself. */
export function dailySeals(
  { serviceUrl }: Service,
  config: Settings,
  log: { log(words: string): void; error(words: string): void },
  clock: Clock = systemClock,
): DailySeals {
  const key = new SealKey(config);
  return new DailySeals({ log, leave: (signal) => connected(serviceUrl, (client) => leaveHouse(client, { config, key, clock, signal })) });
}
