import { randomUUID } from 'node:crypto';
import { notDone, type CommandContext } from './command.js';
import { isOurOwn, readConfig, type Config } from './platform/config/index.js';
import {
  connected,
  demandMigrated,
  joinDatabase,
  openDatabase,
  serviceDatabase,
  serviceUrlFrom,
  startServer,
  type Database,
  type ServiceDatabase,
} from './platform/database/index.js';
import { errorMessage } from './platform/errors/index.js';
import { claim } from './platform/health/index.js';

/** Those that change more than the service may, or have to see past the fence: they run as the database's owner. */
const asOwner: Readonly<Record<string, () => Promise<(database: Database, context: CommandContext) => Promise<number>>>> = {
  migrate: async () => (await import('./migrate.command.js')).migrateCommand,
  ledger: async () => (await import('./records.command.js')).ledgerCommand,
  withhold: async () => (await import('./withhold.command.js')).withholdCommand,
  erase: async () => (await import('./erase.command.js')).eraseCommand,
  begin: async () => (await import('./begin.command.js')).beginCommand,
};

/** Those that the service's role is enough for. */
const asService: Readonly<Record<string, () => Promise<(database: ServiceDatabase, context: CommandContext) => Promise<number>>>> = {
  purge: async () => (await import('./purge.command.js')).purgeCommand,
  'security-events': async () => (await import('./security-events.command.js')).securityEventsCommand,
  doctor: async () => (await import('./doctor.command.js')).doctorCommand,
  bundle: async () => (await import('./bundle.command.js')).bundleCommand,
  seal: async () => (await import('./seal.command.js')).sealCommand,
  backup: async () => (await import('./backup.command.js')).backupCommand,
};

/** Those that need no database, or open one themselves. */
const alone: Readonly<Record<string, () => Promise<(context: CommandContext) => Promise<number>>>> = {
  'backup-key': async () => (await import('./backup-key.command.js')).backupKeyCommand,
  witness: async () => (await import('./witness.command.js')).witnessCommand,
  restore: async () => (await import('./restore.command.js')).restoreCommand,
};

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const find = <T>(registry: Readonly<Record<string, T>>, name: string): T | undefined =>
  Object.hasOwn(registry, name) ? registry[name] : undefined;

/** Runs one command on the database of the settings, beside a running service or without one. Answers with the exit code. */
export async function run(given: readonly string[]): Promise<number> {
  const [name = '', ...words] = given[0] === undefined || ['verify', 'rebuild'].includes(given[0]) ? ['ledger', ...given] : given;
  const [owners, services, byItself] = [find(asOwner, name), find(asService, name), find(alone, name)];
  try {
    const config = readConfig();
    if (byItself) return await (await byItself())({ config, words, say });
    if (services) {
      const command = await services();
      return await withDatabase(config, asServiceOf, (database) => command(database, { config, words, say }));
    }
    if (owners) {
      const command = await owners();
      return await withDatabase(config, asOwnerOf(name), (database) => command(database, { config, words, say }));
    }
  } catch (error) {
    process.stderr.write(`${errorMessage(error)}\n`);
    return name === 'ledger' ? notDone : 1;
  }
  const all = [asOwner, asService, alone].flatMap((registry) => Object.keys(registry));
  say(`There is no command "${name}". There are: ${all.join(', ')}.`);
  return 2;
}

/** Our own database is opened beside or instead of a service, and what is started for it is ended; a server of somebody's as `elsewhere` says. */
async function withDatabase<D extends ServiceDatabase>(
  config: Config,
  elsewhere: (config: Config) => Promise<D | Database>,
  work: (database: D | Database) => Promise<number>,
): Promise<number> {
  const held = isOurOwn(config) ? await claim(config.DATA_DIR, randomUUID(), say) : undefined;
  const joined = held?.ours === false ? await joinDatabase(config) : undefined;
  const database = joined ?? (await (isOurOwn(config) ? openDatabase(config) : elsewhere(config)));
  try {
    return await work(database);
  } finally {
    await database.stop();
    if (held?.ours) await held.release();
  }
}

/** On a server only `migrate` migrates: every other command that needs the owner refuses a database that is not up to date. */
const asOwnerOf =
  (name: string) =>
  async (config: Config): Promise<Database> => {
    if (name === 'migrate') return openDatabase(config);
    const { ownerUrl, stop } = await startServer(config);
    await connected(ownerUrl, demandMigrated);
    return { ownerUrl, serviceUrl: config.DATABASE_URL ?? serviceUrlFrom(ownerUrl), applied: [], stop };
  };

/** The owner's login, where it was given, is not used. */
const asServiceOf = async (config: Config): Promise<ServiceDatabase> =>
  serviceDatabase(config.DATABASE_URL ?? serviceUrlFrom(config.OWNER_DATABASE_URL ?? ''));
