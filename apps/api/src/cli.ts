import { randomUUID } from 'node:crypto';
import { notDone, type CommandContext } from './command.js';
import { readConfig, type Config } from './platform/config/index.js';
import { joinDatabase, openDatabase, type Database } from './platform/database/index.js';
import { errorMessage } from './platform/errors/index.js';
import { claim } from './platform/health/index.js';

type Command = (database: Database, context: CommandContext) => Promise<number>;

const commands: Readonly<Record<string, () => Promise<Command>>> = {
  migrate:
    async () =>
    async (database, { say }) => {
      say(database.applied.length === 0 ? 'The database was up to date.' : `Applied: ${database.applied.join(', ')}.`);
      return 0;
    },
  ledger: async () => (await import('./records.command.js')).ledgerCommand,
  withhold: async () => (await import('./withhold.command.js')).withholdCommand,
  purge: async () => (await import('./purge.command.js')).purgeCommand,
  'security-events': async () => (await import('./security-events.command.js')).securityEventsCommand,
  doctor: async () => (await import('./doctor.command.js')).doctorCommand,
  bundle: async () => (await import('./bundle.command.js')).bundleCommand,
  seal: async () => (await import('./seal.command.js')).sealCommand,
  begin: async () => (await import('./begin.command.js')).beginCommand,
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

/** Runs one command on the database of the settings, beside a running service or without one. Answers with the exit code. */
export async function run([name = '', ...words]: readonly string[]): Promise<number> {
  const found = Object.hasOwn(commands, name) ? commands[name] : undefined;
  const byItself = Object.hasOwn(alone, name) ? alone[name] : undefined;
  if (!found && !byItself) {
    say(`There is no command "${name}". There are: ${[...Object.keys(commands), ...Object.keys(alone)].join(', ')}.`);
    return 2;
  }
  try {
    const config = readConfig();
    if (byItself) return await (await byItself())({ config, words, say });
    const command = await found?.();
    if (!command) return 2;
    return await withDatabase(config, (database) => command(database, { config, words, say }));
  } catch (error) {
    process.stderr.write(`${errorMessage(error)}\n`);
    return name === 'ledger' ? notDone : 1;
  }
}

async function withDatabase(config: Config, work: (database: Database) => Promise<number>): Promise<number> {
  const held = config.DATABASE_URL === undefined ? await claim(config.DATA_DIR, randomUUID(), say) : undefined;
  const joined = held?.ours === false ? await joinDatabase(config) : undefined;
  const database = joined ?? (await openDatabase(config));
  try {
    return await work(database);
  } finally {
    await database.stop();
    if (held?.ours) await held.release();
  }
}
