import { randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { text } from 'node:stream/consumers';
import { parseArgs } from 'node:util';
import type { CommandContext } from './command.js';
import { putSealKey, sealKeyToKeep } from './modules/seals/index.js';
import { bookLines, loadBackup, readBackup, refuseUnlessEmpty, type Header, type ReadBackup } from './platform/backups/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { isOurOwn } from './platform/config/index.js';
import { connected, prepareDatabase, readMigrations, startServer } from './platform/database/index.js';
import { errorCode } from './platform/errors/index.js';
import { claim } from './platform/health/index.js';
import { ledgerCommand } from './records.command.js';

const usage =
  'Say what is restored and with which key: DATA_DIR=/an/empty/folder npm run records -- restore backup.age --key private-key.txt ' +
  '(a single - reads the key from standard input). With --check the backup is only opened and verified.';

interface RestoreOrder {
  readonly file: string;
  readonly key: string;
  readonly check: boolean;
}

/** Restores a backup into an empty place: its records, photos and key, then the rows made again, then everything verified. */
export async function restoreCommand({ config, words, say }: CommandContext, clock: Clock = systemClock): Promise<number> {
  const order = orderOf(words);
  if (!order) {
    say(usage);
    return 2;
  }
  const secret = await secretOf(order.key);
  say('Opening the backup');
  const found = await readBackup(order.file, secret); // all of it, before anything here is touched
  await refuseNewer(found.header);
  for (const line of told(found)) say(line);
  if (order.check) {
    say('The key opens it, and it is whole. Nothing was restored.');
    return 0;
  }
  if (isOurOwn(config)) await refuseUnlessEmptyFolder(config.DATA_DIR);
  await refuseAnotherKey(config, found.header);
  const held = isOurOwn(config) ? await claim(config.DATA_DIR, randomUUID(), say) : undefined;
  if (held?.ours === false)
    throw new Error(`A service is running on this data folder: ${held.url}. Nothing was changed. Give another DATA_DIR.`);
  try {
    const server = await startServer(config, { say });
    try {
      return await restored(server.ownerUrl, { config, words, say }, { ...order, secret, header: found.header }, clock);
    } finally {
      await server.stop();
    }
  } finally {
    if (held?.ours) await held.release();
  }
}

async function restored(
  ownerUrl: string,
  { config, say }: CommandContext,
  { file, secret, header }: Pick<RestoreOrder, 'file'> & { readonly secret: string; readonly header: Header },
  clock: Clock,
): Promise<number> {
  await connected(ownerUrl, (owner) => refuseUnlessEmpty(owner, header.migrations));
  await prepareDatabase(ownerUrl, config.DATABASE_URL, new Set(header.migrations.map(({ name }) => name)));
  await connected(ownerUrl, (owner) => loadBackup(owner, file, secret, clock));
  say('Loaded. Making the rows again');
  await prepareDatabase(ownerUrl, config.DATABASE_URL);
  if (header.sealKey !== null) await putSealKey(config, header.sealKey);
  await ledgerCommand({ ownerUrl }, { config, words: ['rebuild'], say });
  say('Verifying');
  const code = await ledgerCommand({ ownerUrl }, { config, words: ['verify'], say });
  say(
    code === 0
      ? `Restored: everything that was recorded by ${header.at}.`
      : 'Restored, and what was found above was so in the backup already.',
  );
  say(
    'Everybody signs on again. What was recorded after that moment is not here. Do not run this beside the service that the backup is of.',
  );
  return code;
}

const told = ({ header, books, rows }: ReadBackup): readonly string[] => [`A backup of ${header.at}: ${rows} rows`, ...bookLines(books)];

async function refuseNewer({ migrations }: Header): Promise<void> {
  const ours = new Map((await readMigrations()).map(({ name, checksum }) => [name, checksum]));
  const other = migrations.find(({ name, checksum }) => ours.get(name) !== checksum);
  if (!other) return;
  throw new Error(
    ours.has(other.name)
      ? `The backup was made under another form of the migration ${other.name}. Restore it with the program that made it. Nothing was changed.`
      : `This backup was made by a newer version of this program: it knows ${other.name}. Restore it with that one. Nothing was changed.`,
  );
}

/** What else stands in a folder would be taken for this house's: a key of another one makes every seal look forged. */
async function refuseUnlessEmptyFolder(folder: string): Promise<void> {
  const there = await readdir(folder).catch((error: unknown): string[] => {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  });
  if (there.includes('running.json')) return; // a service runs there: who claims the folder says which
  if (there.length > 0)
    throw new Error(
      `${folder} is not empty (${there.slice(0, 3).join(', ')}), and a backup is restored into an empty place only. Nothing was changed.`,
    );
}

async function refuseAnotherKey(config: CommandContext['config'], { sealKey }: Header): Promise<void> {
  const here = await sealKeyToKeep(config);
  if (sealKey === null || here === null || here === sealKey) return;
  throw new Error(
    'The key for seals of the settings (SEAL_KEY) is not the one of the backup: all its seals would look forged. Nothing was changed. Give that one, or none.',
  );
}

/** The key as a file or a person gives it, with whatever stands around it. */
async function secretOf(key: string): Promise<string> {
  const given = key === '-' ? await text(process.stdin) : await readKey(key);
  const [secret] = /AGE-SECRET-KEY-1[0-9A-Z]+/.exec(given.toUpperCase()) ?? [];
  if (secret === undefined)
    throw new Error('There is no private key in what --key names: it begins with AGE-SECRET-KEY-1. Nothing was changed.');
  return secret;
}

async function readKey(file: string): Promise<string> {
  return readFile(file, 'utf8').catch((error: unknown) => {
    throw new Error(`The private key cannot be read from ${file} (${errorCode(error) ?? 'unknown'}). Nothing was changed.`, {
      cause: error,
    });
  });
}

function orderOf(words: readonly string[]): RestoreOrder | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: words.slice(),
      allowPositionals: true,
      options: { key: { type: 'string' }, check: { type: 'boolean' } },
    });
    const [file, ...more] = positionals;
    const { key, check = false } = values;
    return file === undefined || key === undefined || more.length > 0 ? undefined : { file, key, check };
  } catch {
    return undefined;
  }
}
