import { stat } from 'node:fs/promises';
import type { CommandContext } from './command.js';
import { keyStaysFor, sealKeyToKeep, settleKey } from './modules/seals/index.js';
import { bookLines, DailyBackup, checkRecipients, deleteOld, takeBackup, type TakenBackup } from './platform/backups/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import type { Config } from './platform/config/index.js';
import { connected, type ServiceDatabase } from './platform/database/index.js';

type Service = Pick<ServiceDatabase, 'serviceUrl'>;
type Settings = Pick<Config, 'BACKUP_DIR' | 'BACKUP_TO' | 'DATA_DIR' | 'SEAL_KEY'>;

const usage =
  'Say where backups are put and which key they are encrypted to: BACKUP_DIR=/another/disk BACKUP_TO=age1… npm run records -- backup. ' +
  'npm run records -- backup-key makes a pair of keys.';

/** Takes one backup now, beside a running service or without one. */
export async function backupCommand(
  database: Service,
  { config, words, say }: { readonly config: Settings } & Pick<CommandContext, 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  const { BACKUP_DIR: folder, BACKUP_TO: recipients } = config;
  if (folder === undefined || recipients === undefined || words.length > 0) {
    say(usage);
    return 2;
  }
  const taken = await take(database, config, { folder, recipients }, clock);
  for (const line of told(taken)) say(line);
  const old = await deleteOld(folder);
  if (old.length > 0) say(`${old.length} old ${old.length === 1 ? 'backup' : 'backups'} deleted by the rule: 7 days, 5 weeks, 12 months.`);
  if (await onOneDisk(folder, config.DATA_DIR)) say('It is on the same disk as the records. Copy it to another: a broken disk takes both.');
  return taken.books.every(({ fitsHead }) => fitsHead) ? 0 : 1;
}

/** The daily backups of a service, where the settings ask for them. */
export function dailyBackup(
  database: Service,
  config: Settings,
  log: { log(words: string): void; error(words: string): void },
): DailyBackup | undefined {
  const { BACKUP_DIR: folder, BACKUP_TO: recipients } = config;
  if (folder === undefined && recipients === undefined) return undefined;
  if (folder === undefined || recipients === undefined) throw new Error(`Only one of BACKUP_DIR and BACKUP_TO is set. ${usage}`);
  checkRecipients(recipients);
  const clock = systemClock;
  return new DailyBackup({ folder, clock, log, take: (signal) => take(database, config, { folder, recipients, signal }, clock) });
}

async function take(
  { serviceUrl }: Service,
  config: Settings,
  to: { readonly folder: string; readonly recipients: readonly string[]; readonly signal?: AbortSignal },
  clock: Clock,
): Promise<TakenBackup> {
  return connected(serviceUrl, async (keeper) => {
    await settleKey(keeper, config);
    await keyStaysFor(keeper); // so that the key and the statements that lead to it are of one moment
    return takeBackup({ serviceUrl, ...to, sealKey: await sealKeyToKeep(config), clock });
  });
}

function told({ file, at, bytes, rows, books }: TakenBackup): readonly string[] {
  const damaged = books.filter(({ fitsHead }) => !fitsHead);
  return [
    `${file}, of ${at}: ${rows} rows, ${(bytes / 1_000_000).toFixed(1)} MB`,
    ...bookLines(books),
    'Verified: read back from the disk, decrypted, every row there, each book’s entries give its root.',
    'Not verified: that you have the private key. Try it once: npm run records -- restore FILE --key KEYFILE --check',
    ...damaged.map(({ name }) => `${name} is not what its head tells: the records themselves are damaged. Run npm run records -- verify.`),
  ];
}

/** False where one of them cannot be looked at: a database elsewhere has no folder here. */
async function onOneDisk(...folders: readonly string[]): Promise<boolean> {
  const disks = await Promise.all(
    folders.map((folder) =>
      stat(folder).then(
        ({ dev }) => dev,
        () => undefined,
      ),
    ),
  );
  return disks[0] !== undefined && disks.every((disk) => disk === disks[0]);
}
